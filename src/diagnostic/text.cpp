#include "diagnostic/text.h"

#include <algorithm>
#include <array>

#include "aftercrop/diagnostic/render.h"

namespace aftercrop::diagnostic {
namespace {

constexpr char32_t kReplacement = 0xFFFD;

struct CodeRange {
  char32_t first;
  char32_t last;
};

constexpr std::array<CodeRange, 6> kNoColumn = {{{0x0300, 0x036F},
                                                 {0x0591, 0x05BD},
                                                 {0x064B, 0x065F},
                                                 {0x1AB0, 0x1AFF},
                                                 {0x200B, 0x200D},
                                                 {0xFE00, 0xFE0F}}};
constexpr std::array<CodeRange, 8> kTwoColumns = {{{0x1100, 0x115F},
                                                   {0x2E80, 0x303E},
                                                   {0x3041, 0xA4CF},
                                                   {0xAC00, 0xD7A3},
                                                   {0xF900, 0xFAFF},
                                                   {0xFF00, 0xFF60},
                                                   {0x1F300, 0x1F64F},
                                                   {0x1F900, 0x1F9FF}}};

template <std::size_t n>
bool inside(const std::array<CodeRange, n>& ranges, char32_t code) {
  for (const CodeRange& range : ranges) {
    if (code >= range.first && code <= range.last) return true;
  }
  return false;
}

std::size_t length_from_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return 2;
  if (lead >= 0xE0 && lead <= 0xEF) return 3;
  if (lead >= 0xF0 && lead <= 0xF4) return 4;
  return 0;
}

/// Marks that turn the direction of writing could make a line read as something else.
bool turns_direction(char32_t code) {
  return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) ||
         code == 0x200E || code == 0x200F || code == 0x061C;
}

void append(std::string& out, char32_t code) {
  const auto byte = [&out](char32_t value) { out.push_back(static_cast<char>(value)); };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0 | (code >> 6));
    byte(0x80 | (code & 0x3F));
  } else {
    byte(0xE0 | (code >> 12));
    byte(0x80 | ((code >> 6) & 0x3F));
    byte(0x80 | (code & 0x3F));
  }
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::size_t bytes = length_from_lead(lead);
  if (bytes == 1) return {lead, 1};
  if (bytes == 0 || at + bytes > text.size()) return {kReplacement, 1};
  char32_t code = lead & (0xFFU >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    const auto next = static_cast<unsigned char>(text[at + i]);
    if ((next & 0xC0) != 0x80) return {kReplacement, 1};
    code = (code << 6) | (next & 0x3FU);
  }
  const bool too_long = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (too_long || surrogate || code > 0x10FFFF) return {kReplacement, 1};
  return {code, bytes};
}

int columns_of(char32_t code) {
  if (inside(kNoColumn, code)) return 0;
  return inside(kTwoColumns, code) ? 2 : 1;
}

int columns_of(std::string_view text) {
  int columns = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    columns += columns_of(next.code);
    at += next.bytes;
  }
  return columns;
}

std::vector<std::string> fold(std::string_view text, int width) {
  std::vector<std::string> lines;
  std::string line;
  int used = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t blank = std::min(text.find(' ', at), text.size());
    // A number keeps its per cent sign.
    if (text.substr(blank).starts_with(" %")) {
      blank = std::min(text.find(' ', blank + 1), text.size());
    }
    const std::string_view word = text.substr(at, blank - at);
    at = blank + 1;
    if (word.empty()) continue;
    const int columns = columns_of(word);
    if (used > 0 && used + 1 + columns > width) {
      lines.push_back(line);
      line.clear();
      used = 0;
    }
    if (used > 0) line += ' ';
    line += word;
    used += columns + (used > 0 ? 1 : 0);
  }
  if (used > 0) lines.push_back(line);
  return lines;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    if (next.code == '\t') {
      out += ' ';
    } else if (next.code < 0x20) {
      append(out, 0x2400 + next.code);  // the pictures of control characters
    } else if (next.code == 0x7F) {
      append(out, 0x2421);
    } else if (next.code == kReplacement || (next.code >= 0x80 && next.code < 0xA0) ||
               turns_direction(next.code)) {
      append(out, kReplacement);
    } else {
      out.append(text.substr(at, next.bytes));
    }
    at += next.bytes;
  }
  return out;
}

}  // namespace aftercrop::diagnostic
