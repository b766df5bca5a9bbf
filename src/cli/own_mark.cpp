#include "cli/own_mark.h"

#include <fmt/format.h>

#include <cstdint>

namespace aftercrop::cli {
namespace {

constexpr std::string_view kLastLine = "# written by aftercrop, checksum ";
constexpr std::string_view kComment = "<!-- written by aftercrop, checksum ";
constexpr std::string_view kCommentEnd = " -->";
constexpr std::string_view kProperty = "X-AFTERCROP-CHECKSUM:";
constexpr std::string_view kLineEnd = "\r\n";
constexpr std::string_view kColumn = "checksum";
constexpr std::string_view kCell = "aftercrop-";
constexpr std::string_view kMaker = "\nPRODID:";

/// FNV-1a, 32 bits. It notices a change; it does not keep anybody from making one.
std::string checksum(std::string_view text) {
  std::uint32_t hash = 2166136261U;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 16777619U;
  }
  return fmt::format("{:08X}", hash);
}

/// Each line of a table, without its end, with what `change` adds to or takes from it. Cells hold
/// no line breaks.
template <class Change>
std::string with_lines_changed(std::string_view text, const Change& change) {
  std::string out;
  for (std::size_t at = 0, row = 0; at < text.size(); ++row) {
    const std::size_t end = text.find(kLineEnd, at);
    const std::string_view line = text.substr(at, end == std::string_view::npos ? end : end - at);
    out += change(line, row);
    if (end == std::string_view::npos) break;
    out += kLineEnd;
    at = end + kLineEnd.size();
  }
  return out;
}

std::string with_column(std::string_view text) {
  const std::string sum = checksum(text);
  return with_lines_changed(text, [&](std::string_view line, std::size_t row) {
    std::string out(line);
    out += ',';
    if (row == 0) out += kColumn;
    if (row == 1) out += fmt::format("{}{}", kCell, sum);  // a word: digits alone would be a number
    return out;
  });
}

bool column_holds(std::string_view text) {
  const std::string body = with_lines_changed(text, [](std::string_view line, std::size_t) {
    return std::string(line.substr(0, line.rfind(',')));
  });
  return !text.empty() && text == with_column(body);
}

/// `form` is one whose mark stands at the end, in a length of its own.
bool end_holds(std::string_view text, MarkForm form) {
  const std::size_t size = marked({}, form).size();
  if (text.size() < size) return false;
  return text == marked(text.substr(0, text.size() - size), form);
}

/// Where a calendar's own properties end and the mark goes; npos if it names no maker.
std::size_t behind_maker(std::string_view text) {
  const std::size_t maker = text.find(kMaker);
  if (maker == std::string_view::npos) return maker;
  const std::size_t end = text.find('\n', maker + 1);
  return end == std::string_view::npos ? end : end + 1;
}

bool property_holds(std::string_view text) {
  const std::size_t place = behind_maker(text);
  if (place == std::string_view::npos) return false;
  const std::string_view mark = text.substr(place, text.find('\n', place) + 1 - place);
  if (mark.substr(0, kProperty.size()) != kProperty) return false;
  std::string body(text.substr(0, place));
  body += text.substr(place + mark.size());
  return text == marked(body, MarkForm::Calendar);
}

}  // namespace

MarkForm mark_form(std::string_view path) {
  const std::size_t dot = path.rfind('.');
  const std::string_view ending = dot == std::string_view::npos ? "" : path.substr(dot);
  if (ending == ".csv") return MarkForm::Column;
  if (ending == ".ics") return MarkForm::Calendar;
  if (ending == ".html" || ending == ".svg") return MarkForm::Comment;
  return MarkForm::LastLine;
}

std::string marked(std::string_view text, MarkForm form) {
  if (form == MarkForm::Column) return with_column(text);
  std::string out(text);
  if (form == MarkForm::LastLine) out += fmt::format("{}{}\n", kLastLine, checksum(text));
  if (form == MarkForm::Comment) {
    out += fmt::format("{}{}{}\n", kComment, checksum(text), kCommentEnd);
  }
  if (form == MarkForm::Calendar) {
    const std::size_t place = behind_maker(text);
    if (place != std::string_view::npos) {
      out.insert(place, fmt::format("{}{}\r\n", kProperty, checksum(text)));
    }
  }
  return out;
}

bool untouched(std::string_view text, MarkForm form) {
  switch (form) {
    case MarkForm::LastLine:
    case MarkForm::Comment:
      return end_holds(text, form);
    case MarkForm::Calendar:
      return property_holds(text);
    case MarkForm::Column:
      break;
  }
  return column_holds(text);
}

}  // namespace aftercrop::cli
