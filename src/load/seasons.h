#pragma once

#include <optional>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// The span of starts and the season-years in it, one span a year.
struct Seasons {
  calendar::WeekSpan span;
  std::vector<calendar::WeekSpan> years;
};

/// `2027` (from one coldest week to the next), `2027/28` in the south, or `{from: 2027-03-01,
/// years: 3}`, `{from:, to:}`. 1 to 10 years. Errors: `not-a-season`, `horizon-out-of-range`.
[[nodiscard]] std::optional<Seasons> read_seasons(const Node& node,
                                                  const climate::SiteClimate& site,
                                                  diagnostic::Diagnostics& out);

/// One season-year.
[[nodiscard]] Seasons season_of(int season, const climate::SiteClimate& site);

/// The years of a span: equal steps from its first week, the last one cut at its end.
[[nodiscard]] std::vector<calendar::WeekSpan> years_of(calendar::WeekSpan span);

}  // namespace aftercrop::load
