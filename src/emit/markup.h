#pragma once

#include <string>
#include <string_view>

#include "aftercrop/calendar/date.h"

// Text and numbers as HTML and SVG take them. What a user typed gets into a page through `markup`
// alone.
namespace aftercrop::emit {

/// Text that stays text, between tags and inside quoted attributes: nothing in it is markup,
/// control characters are visible.
[[nodiscard]] std::string markup(std::string_view text);

/// The same for sentences of ours: a day in them is said as people do ("24 May 2027"),
/// what stands in backticks is code.
[[nodiscard]] std::string prose_markup(std::string_view sentence);

/// The same, kept from turning the direction of what stands beside it.
[[nodiscard]] std::string name_markup(std::string_view name);

/// A length or place in a picture: one digit behind the point at most, never "-0".
[[nodiscard]] std::string coordinate(double value);

/// "24 May 2027".
[[nodiscard]] std::string spoken_date(calendar::Date day);
/// "24 May": where the year is plain.
[[nodiscard]] std::string spoken_day(calendar::Date day);
/// `spoken_date` with the day as programs read it.
[[nodiscard]] std::string date_markup(calendar::Date day);
/// "24 May to 4 October 2027", "1 October 2027 to 3 May 2028"; months in short.
[[nodiscard]] std::string spoken_span(calendar::Date first, calendar::Date last);

}  // namespace aftercrop::emit
