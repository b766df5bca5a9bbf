#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace aftercrop::diagnostic {

/// One character of a text.
struct Character {
  char32_t code = 0;      ///< 0xFFFD where the bytes are not UTF-8
  std::size_t bytes = 1;  ///< how many bytes it takes; 1 for a byte that is not UTF-8
};

/// The character that starts at byte `at` (at < text.size()).
[[nodiscard]] Character character_at(std::string_view text, std::size_t at);

/// Columns that a terminal gives a character: 0 for combining marks, 2 for East Asian wide ones.
[[nodiscard]] int columns_of(char32_t code);

/// Columns of a whole text.
[[nodiscard]] int columns_of(std::string_view text);

/// The text in lines of at most `width` columns, broken at blanks; a word that is longer stands
/// alone on its line.
[[nodiscard]] std::vector<std::string> fold(std::string_view text, int width);

}  // namespace aftercrop::diagnostic
