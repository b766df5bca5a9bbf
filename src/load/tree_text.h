#pragma once

#include <yaml-cpp/mark.h>

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::load {

/// The lines of a text, to turn a parser's byte places into lines and columns of characters.
class TextLines {
 public:
  explicit TextLines(std::shared_ptr<const diagnostic::SourceFile> file);

  /// First character of the file.
  [[nodiscard]] diagnostic::Source start() const;
  /// Place of a parser's mark (0-based, bytes); `characters` = how many the caret line marks,
  /// cut at the end of the line. A mark outside the text gives its last line.
  [[nodiscard]] diagnostic::Source source(const YAML::Mark& mark, std::size_t characters) const;
  /// Line by number (1-based), without its line end.
  [[nodiscard]] std::string_view line(int number) const;
  /// Byte place of a mark in its line.
  [[nodiscard]] std::string_view rest_of_line(const YAML::Mark& mark) const;
  /// `key:value` without a blank at the start of a line: the place of the colon.
  [[nodiscard]] std::optional<diagnostic::Source> colon_without_blank(int number) const;
  /// False where the bracket at a mark is still open at the end of the text.
  [[nodiscard]] bool bracket_closes(const YAML::Mark& mark) const;
  /// The nearest line up to `number` whose value opens a quote that the line does not close.
  [[nodiscard]] std::optional<diagnostic::Source> open_quote(int number) const;

 private:
  [[nodiscard]] diagnostic::Source at(int number, std::size_t byte, std::size_t characters) const;
  std::shared_ptr<const diagnostic::SourceFile> file_;
  std::vector<std::size_t> starts_;
  /// Characters of a line up to a byte, as last counted.
  struct Counted {
    int line = 0;
    std::size_t byte = 0;
    std::size_t before = 0;
    std::size_t all = 0;
  };
  mutable Counted counted_;
};

/// False, with an error, for a text that is too large, not UTF-8, or holds control characters.
[[nodiscard]] bool check_text(const std::shared_ptr<const diagnostic::SourceFile>& file,
                              diagnostic::Diagnostics& out);

/// True if the quoted text that `rest` starts with ends on its line.
[[nodiscard]] bool quote_closes(std::string_view rest);

void report_open_quote(const diagnostic::Source& source, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
