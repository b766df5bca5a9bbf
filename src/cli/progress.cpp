#include "cli/progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

constexpr std::chrono::milliseconds kBetweenLines{100};

std::string line(const sequencer::Progress& progress) {
  std::string text = fmt::format("{:.0f} s  {}  ", progress.seconds, progress.step);
  if (progress.share_met > 0.0) {
    text += fmt::format("{:.0f} % of what you want, ", 100.0 * progress.share_met);
  }
  text += fmt::format("value {:.0f}", progress.value);
  if (progress.bound) {
    const double gap = (*progress.bound - progress.value) / std::max(1.0, std::abs(progress.value));
    text += fmt::format(", at most {:.0f} (gap {:.1f} %)", *progress.bound, 100.0 * gap);
  }
  return text;
}

}  // namespace

ProgressLine::ProgressLine(bool wanted) : wanted_(wanted && can_redraw(stderr)) {}

void ProgressLine::show(const sequencer::Progress& progress) {
  if (!wanted_) return;
  const auto now = Clock::now();
  if (drawn_ && now - last_ < kBetweenLines) return;
  last_ = now;
  drawn_ = true;
  std::string text = line(progress);
  const auto room = static_cast<std::size_t>(terminal_width() - 1);
  if (text.size() > room) text.resize(room);
  print(stderr, "\r" + text + "\x1b[K");
  std::fflush(stderr);
}

void ProgressLine::clear() {
  if (!drawn_) return;
  drawn_ = false;
  print(stderr, "\r\x1b[K");
  std::fflush(stderr);
}

}  // namespace aftercrop::cli
