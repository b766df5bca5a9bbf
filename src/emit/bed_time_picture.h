#pragma once

#include <string>
#include <vector>

#include "emit/bed_stands.h"
#include "emit/family_style.h"

// Beds against time: a row a section, a bar a stand. Food crops fill their row, covers its lower
// part; the weeks of harvest are underlined.
namespace aftercrop::emit {

struct Picture {
  const CalendarInput& input;
  const std::vector<BedStands>& beds;
  const FamilyStyles& families;
  calendar::WeekSpan weeks;
};

/// From the first week of the seasons to the end of the last stand.
[[nodiscard]] calendar::WeekSpan picture_weeks(const garden::Garden& garden,
                                               const std::vector<BedStands>& beds);

inline constexpr double kWeekWidth = 8;
inline constexpr double kPictureTop = 46;  ///< height of the months' heading

[[nodiscard]] double picture_width(const Picture& picture);
[[nodiscard]] double picture_height(const Picture& picture);

enum class Bars {
  Linked,  ///< each leads to its stand of the page
  Titled,  ///< each tells what it is where it is pointed at
  Plain,   ///< for paper
};

/// The bars with months above, without the enclosing element.
[[nodiscard]] std::string picture_body(const Picture& picture, Bars bars);
/// The names of the rows, at the left edge.
[[nodiscard]] std::string picture_names(const Picture& picture);
/// How many rows from `first` on fit into a height, months included: at least one. A bed is parted
/// only where it is higher than that.
[[nodiscard]] std::size_t rows_that_fit(const Picture& picture, std::size_t first, double height);
/// A line down at a day.
[[nodiscard]] std::string day_line(const Picture& picture, calendar::Date day);

/// "N1.1: tomato, 24 May to 4 October 2027".
[[nodiscard]] std::string stand_title(const CalendarInput& input, const StandView& stand);

/// As much of the text as that many columns hold, "tom..." cut with an ellipsis; empty where less
/// than three letters would be left.
[[nodiscard]] std::string fitted(std::string_view text, int columns);

}  // namespace aftercrop::emit
