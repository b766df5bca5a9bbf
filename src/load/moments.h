#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/site_rows.h"
#include "load/fields.h"

namespace aftercrop::load {

/// YYYY-MM-DD. Errors: `impossible-date` (30 February), `not-a-date`.
[[nodiscard]] std::optional<calendar::Date> read_date(const Node& node, std::string_view what,
                                                      diagnostic::Diagnostics& out);

/// MM-DD, any day that some year has.
[[nodiscard]] std::optional<catalogue::MonthDay> read_month_day(const Node& node,
                                                                std::string_view what,
                                                                diagnostic::Diagnostics& out);

/// A day of a year, or of every year.
using Day = std::variant<calendar::Date, catalogue::MonthDay>;
[[nodiscard]] std::optional<Day> read_day(const Node& node, std::string_view what,
                                          diagnostic::Diagnostics& out);

/// The day of one year; 29 February becomes 28 February in a year without one.
[[nodiscard]] calendar::Date in_year(catalogue::MonthDay day, int year);

/// The first `day` on or after `start`.
[[nodiscard]] calendar::Date next(catalogue::MonthDay day, calendar::Date start);

/// The same day `years` later; 29 February becomes 28 February.
[[nodiscard]] calendar::Date years_later(calendar::Date day, int years);

}  // namespace aftercrop::load
