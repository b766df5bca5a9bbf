#include "aftercrop/diagnostic/render.h"

#include <fmt/format.h>

#include <algorithm>

#include "diagnostic/text.h"

namespace aftercrop::diagnostic {
namespace {

constexpr int kLeastWidth = 40;
constexpr std::string_view kCut = "...";

std::string_view paint_of(Severity severity) {
  switch (severity) {
    case Severity::Note:
      return "\x1b[1;36m";
    case Severity::Warning:
      return "\x1b[1;33m";
    case Severity::Error:
      break;
  }
  return "\x1b[1;31m";
}

std::string painted(std::string_view text, std::string_view paint, const RenderStyle& style) {
  if (!style.color) return std::string(text);
  return fmt::format("{}{}\x1b[0m", paint, text);
}

std::string place(const Source& source) {
  if (source.file == nullptr) return {};
  const std::string file = printable(source.file->name);
  if (!source.known()) return file + ": ";
  return fmt::format("{}:{}:{}: ", file, source.line, source.column);
}

/// A stretch of one source line with the marked characters in sight.
struct Excerpt {
  std::string text;
  int indent = 0;  ///< columns before the mark
  int marked = 1;  ///< columns of the mark
};

/// The characters [first, past) of a line, made safe for a terminal.
std::string characters(std::string_view line, int first, int past) {
  std::string out;
  int number = 0;
  for (std::size_t at = 0; at < line.size() && number < past; ++number) {
    const std::size_t bytes = character_at(line, at).bytes;
    if (number >= first) out += printable(line.substr(at, bytes));
    at += bytes;
  }
  return out;
}

int character_count(std::string_view line) {
  int count = 0;
  for (std::size_t at = 0; at < line.size(); ++count) at += character_at(line, at).bytes;
  return count;
}

Excerpt excerpt(const Source& source, int width) {
  const std::string_view line = source.file->line(source.line);
  const int count = character_count(line);
  const int mark = std::clamp(source.column - 1, 0, count);
  const int mark_past = std::clamp(mark + std::max(1, source.length), mark, std::max(mark, count));
  int first = 0;
  int past = count;
  if (count > width) {
    const int kept = width - 2 * static_cast<int>(kCut.size());
    first = std::max(0, std::min(mark - kept / 3, count - kept));
    past = std::min(count, first + kept);
  }
  Excerpt shown;
  const std::string lead = first > 0 ? std::string(kCut) : std::string();
  const std::string before = lead + characters(line, first, mark);
  const std::string under = characters(line, mark, std::min(mark_past, past));
  shown.text = before + under + characters(line, std::min(mark_past, past), past);
  if (past < count) shown.text += kCut;
  shown.indent = columns_of(before);
  shown.marked = std::max(1, columns_of(under));
  return shown;
}

void add_source(std::string& out, const Source& source, std::string_view paint,
                const RenderStyle& style) {
  if (!source.known()) return;
  const std::string number = std::to_string(source.line);
  const int room = std::max(kLeastWidth, style.width) - 4 - static_cast<int>(number.size());
  const Excerpt shown = excerpt(source, room);
  out += fmt::format(" {} | {}\n", number, shown.text);
  const std::string caret(static_cast<std::size_t>(shown.marked), '^');
  out += fmt::format(" {:{}} | {:{}}{}\n", "", number.size(), "", shown.indent,
                     painted(caret, paint, style));
}

void add_folded(std::string& out, std::string_view label, std::string_view text,
                const RenderStyle& style) {
  const int room = std::max(kLeastWidth, style.width) - static_cast<int>(label.size()) - 4;
  bool first = true;
  for (const std::string& line : fold(printable(text), room)) {
    out += first ? fmt::format("  {}: {}\n", label, line)
                 : fmt::format("  {:{}}  {}\n", "", label.size(), line);
    first = false;
  }
}

/// A headline from its place, its tag (may be empty) and its message; what is folded is indented.
std::string headline(const std::string& place, const std::string& tag, const std::string& message,
                     int indent, const RenderStyle& style) {
  const std::string text = place + tag + (tag.empty() ? "" : ": ") + printable(message);
  if (!style.folds_headlines) return text + "\n";
  std::string out;
  for (const std::string& line : fold(text, std::max(kLeastWidth, style.width) - indent)) {
    if (!out.empty()) out.append(static_cast<std::size_t>(indent), ' ');
    out += line + "\n";
  }
  return out;
}

}  // namespace

std::string render_full(const Diagnostic& diagnostic, const RenderStyle& style) {
  const std::string_view paint = paint_of(diagnostic.severity);
  const std::string tag = fmt::format("{}[{}]", name(diagnostic.severity), diagnostic.id);
  std::string out = headline(place(diagnostic.source), tag, diagnostic.message, 4, style);
  if (const std::size_t at = out.find(tag); at != std::string::npos) {
    out.replace(at, tag.size(), painted(tag, paint, style));
  }
  add_source(out, diagnostic.source, paint, style);
  for (const Related& related : diagnostic.related) {
    out += "  " + headline(place(related.source), "", related.message, 4, style);
    add_source(out, related.source, paint, style);
  }
  add_folded(out, "help", diagnostic.help, style);
  for (const std::string& reference : diagnostic.references) {
    add_folded(out, "source", reference, style);
  }
  return out;
}

std::string render_concise(const Diagnostic& diagnostic) {
  return fmt::format("{}{}[{}] {}", place(diagnostic.source), name(diagnostic.severity),
                     diagnostic.id, printable(diagnostic.message));
}

}  // namespace aftercrop::diagnostic
