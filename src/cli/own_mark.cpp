#include "cli/own_mark.h"

#include <fmt/format.h>

#include <cstdint>

namespace aftercrop::cli {
namespace {

constexpr std::string_view kLastLine = "# written by aftercrop, checksum ";
constexpr std::string_view kComment = "<!-- written by aftercrop, checksum ";
constexpr std::string_view kCommentEnd = " -->";
constexpr std::string_view kProperty = "X-AFTERCROP-CHECKSUM:";
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

std::string_view first_line(std::string_view text) { return text.substr(0, text.find('\n')); }

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
  if (ending == ".csv") return MarkForm::Header;
  if (ending == ".ics") return MarkForm::Calendar;
  if (ending == ".html" || ending == ".svg") return MarkForm::Comment;
  return MarkForm::LastLine;
}

std::string marked(std::string_view text, MarkForm form) {
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

bool untouched(std::string_view old_text, std::string_view new_text, MarkForm form) {
  switch (form) {
    case MarkForm::LastLine:
    case MarkForm::Comment:
      return end_holds(old_text, form);
    case MarkForm::Calendar:
      return property_holds(old_text);
    case MarkForm::Header:
      break;
  }
  return first_line(old_text) == first_line(new_text);
}

}  // namespace aftercrop::cli
