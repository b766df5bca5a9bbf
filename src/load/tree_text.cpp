#include "load/tree_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using diagnostic::Source;
using diagnostic::SourceFile;

constexpr std::size_t kMostBytes = 4U << 20U;

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::size_t count_characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

/// Bytes of the UTF-8 character at `at`, 0 if there is none.
std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(at);
  if (lead < 0x80) return 1;
  const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || at + bytes > text.size()) return 0;
  for (std::size_t i = 1; i < bytes; ++i) {
    if (!continues(text[at + i])) return 0;
  }
  const unsigned char second = byte(at + 1);
  const bool too_long = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool no_character = (lead == 0xED && second > 0x9F) || (lead == 0xF4 && second > 0x8F);
  return too_long || no_character ? 0 : bytes;
}

bool is_control(std::string_view text, std::size_t at) {
  const auto c = static_cast<unsigned char>(text[at]);
  if (c == '\t' || c == '\n') return false;
  if (c == '\r') return at + 1 >= text.size() || text[at + 1] != '\n';
  if (c == 0xC2 && at + 1 < text.size()) return static_cast<unsigned char>(text[at + 1]) < 0xA0;
  return c < 0x20 || c == 0x7F;
}

Source place_of(const std::shared_ptr<const SourceFile>& file, std::size_t at) {
  const std::string_view before = std::string_view(file->text).substr(0, at);
  const std::size_t start =
      before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const auto lines = std::count(before.begin(), before.end(), '\n');
  return {file, static_cast<int>(lines) + 1,
          static_cast<int>(count_characters(before.substr(start))) + 1, 1};
}

}  // namespace

TextLines::TextLines(std::shared_ptr<const SourceFile> file) : file_(std::move(file)) {
  starts_.push_back(0);
  for (std::size_t i = 0; i < file_->text.size(); ++i) {
    if (file_->text[i] == '\n') starts_.push_back(i + 1);
  }
  if (starts_.size() > 1 && starts_.back() == file_->text.size()) starts_.pop_back();
}

Source TextLines::start() const { return {file_, 1, 1, 1}; }

std::string_view TextLines::line(int number) const {
  const auto index = static_cast<std::size_t>(number - 1);
  const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : file_->text.size();
  std::string_view text =
      std::string_view(file_->text).substr(starts_[index], end - starts_[index]);
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.remove_suffix(1);
  return text;
}

Source TextLines::at(int number, std::size_t byte, std::size_t characters) const {
  const std::string_view text = line(number);
  const std::size_t end = std::min(byte, text.size());
  // Places come mostly in order: counting goes on from the last one, however long the line.
  if (counted_.line != number || counted_.byte > end) {
    counted_ = {number, 0, 0, count_characters(text)};
  }
  counted_.before += count_characters(text.substr(counted_.byte, end - counted_.byte));
  counted_.byte = end;
  const std::size_t before = counted_.before;
  const std::size_t all = counted_.all;
  const std::size_t room = all > before ? all - before : 1;
  return {file_, number, static_cast<int>(before) + 1,
          static_cast<int>(std::clamp<std::size_t>(characters, 1, room))};
}

Source TextLines::source(const YAML::Mark& mark, std::size_t characters) const {
  if (mark.line < 0) return start();
  const int last = static_cast<int>(starts_.size());
  if (mark.line >= last) return at(last, line(last).size(), 1);
  return at(mark.line + 1, static_cast<std::size_t>(std::max(0, mark.column)), characters);
}

std::string_view TextLines::rest_of_line(const YAML::Mark& mark) const {
  if (mark.line < 0 || mark.line >= static_cast<int>(starts_.size()) || mark.column < 0) return {};
  const std::string_view text = line(mark.line + 1);
  return text.substr(std::min(static_cast<std::size_t>(mark.column), text.size()));
}

std::optional<Source> TextLines::colon_without_blank(int number) const {
  if (number < 1 || number > static_cast<int>(starts_.size())) return {};
  for (int one = number; one >= std::max(1, number - 1); --one) {
    const std::string_view text = line(one);
    std::size_t i = text.find_first_not_of(" -{");
    if (i == std::string_view::npos) continue;
    const std::size_t key = i;
    while (i < text.size() &&
           (std::isalnum(static_cast<unsigned char>(text[i])) != 0 || text[i] == '_'))
      ++i;
    if (i > key && i + 1 < text.size() && text[i] == ':' && text[i + 1] != ' ')
      return at(one, i, 1);
  }
  return {};
}

bool TextLines::bracket_closes(const YAML::Mark& mark) const {
  int open = 0;
  for (int one = mark.line + 1; one <= static_cast<int>(starts_.size()); ++one) {
    const std::string_view text = one == mark.line + 1 ? rest_of_line(mark) : line(one);
    for (std::size_t i = 0; i < text.size(); ++i) {
      const char c = text[i];
      if (c == '#' && i > 0 && text[i - 1] == ' ') break;
      if ((c == '\'' || c == '"') && i > 0 && text[i - 1] == ' ') {
        i = std::min(text.find(c, i + 1), text.size() - 1);
      } else if (c == '[' || c == '{') {
        ++open;
      } else if ((c == ']' || c == '}') && --open == 0) {
        return true;
      }
    }
  }
  return false;
}

std::optional<Source> TextLines::open_quote(int number) const {
  const int last = std::min(number, static_cast<int>(starts_.size()));
  for (int one = last; one >= 1 && one > last - 50; --one) {
    const std::string_view text = line(one);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '#' && (i == 0 || text[i - 1] == ' ')) break;
      if (text[i] != '\'' && text[i] != '"') continue;
      const bool opens =
          i == 0 || std::string_view(" [{,").find(text[i - 1]) != std::string_view::npos;
      if (!opens) continue;
      if (!quote_closes(text.substr(i))) return at(one, i, 1);
      const char quote = text[i];
      i = std::min(text.find(quote, i + 1), text.size() - 1);
    }
  }
  return {};
}

bool quote_closes(std::string_view rest) {
  const char quote = rest.front();
  for (std::size_t i = 1; i < rest.size(); ++i) {
    if (quote == '"' && rest[i] == '\\') {
      ++i;
    } else if (rest[i] == quote) {
      if (quote == '"' || i + 1 >= rest.size() || rest[i + 1] != quote) return true;
      ++i;
    }
  }
  return false;
}

void report_open_quote(const Source& source, Diagnostics& out) {
  out.error("yaml-unclosed-quote", "the quote that opens here is not closed on its line", source,
            "close the quote on the same line");
}

bool check_text(const std::shared_ptr<const SourceFile>& file, Diagnostics& out) {
  const std::string_view text = file->text;
  const Source first{file, 1, 1, 1};
  if (text.size() > kMostBytes) {
    out.error("yaml-too-large",
              fmt::format("the file has {} bytes; at most {} are read", text.size(), kMostBytes),
              first, "split the file: earlier years can stand in plan files of their own");
    return false;
  }
  if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF") {
    out.error("yaml-not-utf8", "the file is UTF-16, not UTF-8", first, "save it as UTF-8");
    return false;
  }
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t bytes = utf8_length(text, i);
    if (bytes == 0) {
      out.error("yaml-not-utf8",
                fmt::format("byte {:#04x} is not UTF-8 text", static_cast<unsigned char>(text[i])),
                place_of(file, i), "save the file as UTF-8");
      return false;
    }
    if (is_control(text, i)) {
      const bool cr = text[i] == '\r';
      out.error("yaml-control-character",
                cr ? std::string("a lone carriage return ends this line")
                   : fmt::format("control character {:#04x} in the text",
                                 static_cast<unsigned char>(text[i + bytes - 1])),
                place_of(file, i),
                cr ? "save the file with Unix or Windows line ends" : "delete it");
      return false;
    }
    i += bytes;
  }
  return true;
}

}  // namespace aftercrop::load
