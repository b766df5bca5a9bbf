#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace aftercrop::load {

/// Small letters, blanks and underscores as hyphens, no apostrophes, each word in the singular:
/// "Green Beans" is "green-bean".
[[nodiscard]] std::string canonical_word(std::string_view text);

/// As `canonical_word`, with the words in order of the alphabet: "cherry tomatoes" and
/// "tomato-cherry" are the same.
[[nodiscard]] std::string canonical_name(std::string_view text);

/// The canonical names that a typed one could stand for: its plural may end in -es or -s.
[[nodiscard]] std::vector<std::string> canonical_spellings(std::string_view text);

/// Least number of letters added, dropped, changed, or swapped with a neighbour.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);

}  // namespace aftercrop::load
