#include "cli/progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "cli/terminal.h"
#include "diagnostic/text.h"

namespace aftercrop::cli {
namespace {

constexpr std::chrono::milliseconds kBetweenDrawings{100};
constexpr std::chrono::seconds kBetweenLines{10};
constexpr double kAsGoodAsMet = 0.95;

std::vector<garden::LineMet> short_lines(const sequencer::Progress& progress,
                                         const garden::Garden& garden) {
  std::vector<garden::LineMet> lines = garden::lines_met(garden, progress.wants);
  std::erase_if(lines, [](const auto& line) { return line.share() >= kAsGoodAsMet; });
  std::stable_sort(lines.begin(), lines.end(),
                   [](const auto& a, const auto& b) { return a.share() < b.share(); });
  return lines;
}

/// As many crops as find room in `width` columns, and how many more there are.
std::string short_text(const std::vector<garden::LineMet>& lines,
                       const catalogue::Catalogue& catalogue, int width) {
  std::string out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string next =
        fmt::format("{}{} {:.0f} %", out.empty() ? "; short: " : ", ",
                    diagnostic::printable(catalogue.crop(lines[i].want->crop).name),
                    std::floor(100.0 * lines[i].share()));
    const std::size_t left = lines.size() - i - 1;
    const std::string more = left == 0 ? "" : fmt::format(", {} more", left);
    if (diagnostic::columns_of(out + next + more) > width) {
      const std::string rest = fmt::format("{}{} {}", out.empty() ? "; " : ", ", left + 1,
                                           out.empty() ? "short" : "more");
      return diagnostic::columns_of(out + rest) <= width ? out + rest : out;
    }
    out += next;
  }
  return out;
}

std::string in_width(const std::string& text, int width) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    const std::string longer = out + text.substr(at, next.bytes);
    if (diagnostic::columns_of(longer) > width) break;
    out = longer;
    at += next.bytes;
  }
  return out;
}

}  // namespace

std::string progress_text(const sequencer::Progress& progress, const garden::Garden& garden,
                          const catalogue::Catalogue& catalogue, int width) {
  std::string text =
      fmt::format("{:.0f} s  {}  value {:.0f}", progress.seconds, progress.step, progress.value);
  if (progress.bound) {
    const double gap = (*progress.bound - progress.value) / std::max(1.0, std::abs(progress.value));
    text += fmt::format(", at most {:.0f} (gap {:.1f} %)", *progress.bound, 100.0 * gap);
  }
  if (!progress.wants.empty()) {
    text += fmt::format(", wants {:.0f} %",
                        std::floor(100.0 * garden::share_met(garden, progress.wants) + 1e-9));
    text +=
        short_text(short_lines(progress, garden), catalogue, width - diagnostic::columns_of(text));
  }
  return in_width(text, width);
}

ProgressLine::ProgressLine(const Shared& shared, const garden::Garden& garden,
                           const catalogue::Catalogue& catalogue)
    : garden_(&garden),
      catalogue_(&catalogue),
      wanted_(!shared.quiet),
      redraws_(can_redraw(stderr) && shared.color != ColorChoice::Never) {}

void ProgressLine::show(const sequencer::Progress& progress) {
  if (!wanted_) return;
  const auto now = Clock::now();
  if (redraws_ && drawn_ && now - last_ < kBetweenDrawings) return;
  if (!redraws_ && now - last_ < kBetweenLines) return;
  last_ = now;
  const std::string text = progress_text(progress, *garden_, *catalogue_, terminal_width() - 1);
  print(stderr, redraws_ ? "\r" + text + "\x1b[K" : text + "\n");
  drawn_ = redraws_;
  std::fflush(stderr);
}

void ProgressLine::clear() {
  if (!drawn_) return;
  drawn_ = false;
  print(stderr, "\r\x1b[K");
  std::fflush(stderr);
}

}  // namespace aftercrop::cli
