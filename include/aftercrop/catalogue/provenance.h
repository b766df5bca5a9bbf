#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"

namespace aftercrop::catalogue {

/// Grades of trust, strongest first: the words of `Citation::grade`.
inline constexpr std::array<std::string_view, 5> kGradeNames = {
    "published", "common practice", "from memory", "derived", "our choice"};

/// A group of figures of a crop that decide something, and the topic that says who says so.
struct FigureGroup {
  std::string_view name;   ///< "days to harvest"
  std::string_view topic;  ///< key of the row's sources
  int figures = 0;         ///< numbers in it
};

/// The groups that a crop has: no yield for a cover, no seed rate for a tomato.
[[nodiscard]] std::vector<FigureGroup> figure_groups(const Crop& crop);

/// Who says it: the first source under the topic, else under "rest", else under "all"; nullptr
/// where the row names none.
[[nodiscard]] const Citation* source_of(const std::vector<Citation>& sources,
                                        std::string_view topic);

/// Groups of figures that rest on the same sources.
struct Attribution {
  std::string figures;  ///< "days to harvest, killing cold"
  std::vector<Citation> sources;
};

/// Every group of figures of a crop with who says so, then what else its row cites under the words
/// of its topics.
[[nodiscard]] std::vector<Attribution> attributions(const Crop& crop);

/// Rows of a table, and their figures by the grade of the first source that they name.
struct Tally {
  std::string table;
  int rows = 0;
  std::array<int, kGradeNames.size()> figures{};  ///< in the order of kGradeNames
  int without = 0;                                ///< figures that name no source with a grade
};

/// One tally a table: crops, covers, families, diseases, partners, climates, soils, amendments,
/// residue classes.
[[nodiscard]] std::vector<Tally> tally(const Catalogue& rows);

/// "New England Vegetable Management Guide, Table 15 (published)"; a text that is its own grade, or
/// has none, stands alone.
[[nodiscard]] std::string with_grade(const Citation& source);

}  // namespace aftercrop::catalogue
