#include "cli/terminal.h"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <string>

#include "diagnostic/text.h"

namespace aftercrop::cli {
namespace {

constexpr int kUsualWidth = 80;
constexpr int kLeastWidth = 20;
constexpr int kLeastRoom = 30;

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe): read before any thread
  return value == nullptr ? std::string_view() : std::string_view(value);
}

}  // namespace

int terminal_width() {
  winsize size{};
  for (const int stream : {STDOUT_FILENO, STDERR_FILENO}) {
    if (ioctl(stream, TIOCGWINSZ, &size) == 0 && size.ws_col >= kLeastWidth) return size.ws_col;
  }
  const std::string_view columns = environment("COLUMNS");
  int width = 0;
  std::from_chars(columns.data(), columns.data() + columns.size(), width);
  return width >= kLeastWidth ? width : kUsualWidth;
}

int room_from(int from) { return std::max(kLeastRoom, terminal_width() - from); }

std::string beside(std::string_view head, std::string_view text, int from) {
  std::string out;
  for (const std::string& line : diagnostic::fold(text, room_from(from))) {
    out += fmt::format("{:<{}}{}\n", out.empty() ? head : "", from, line);
  }
  return out;
}

bool can_redraw(std::FILE* stream) {
  return isatty(fileno(stream)) == 1 && environment("TERM") != "dumb";
}

diagnostic::RenderStyle style_for(std::FILE* stream, ColorChoice choice) {
  diagnostic::RenderStyle style;
  style.width = terminal_width();
  style.folds_headlines = isatty(fileno(stream)) == 1;
  style.color =
      choice == ColorChoice::Always ||
      (choice == ColorChoice::Auto && can_redraw(stream) && environment("NO_COLOR").empty());
  return style;
}

void print(std::FILE* stream, std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stream);
}

void complain(std::string_view text) {
  print(stderr, fmt::format("aftercrop: {}\n", diagnostic::printable(text)));
}

}  // namespace aftercrop::cli
