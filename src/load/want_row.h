#pragma once

#include <optional>
#include <vector>

#include "load/measure.h"
#include "load/moments.h"
#include "load/wants.h"

namespace aftercrop::load {

/// One line of `wants:` as typed.
struct WantRow {
  catalogue::CropId crop;
  std::optional<Measure> amount;
  std::optional<std::pair<Day, Day>> harvest;
  std::optional<int> every_weeks;
  std::optional<bool> each_year;
  double weight = 1.0;
  diagnostic::Source source;
};

/// A plain name, or `{crop: tomato, amount: 220 lb, ...}`.
[[nodiscard]] std::optional<WantRow> read_want_row(const Node& node, Lookup& lookup,
                                                   diagnostic::Diagnostics& out);

/// The windows of a row: its own dates once, or its days in each year, or the whole seasons.
[[nodiscard]] std::vector<calendar::WeekSpan> windows_of(const WantRow& row,
                                                         const WantContext& context,
                                                         diagnostic::Diagnostics& out);

/// The growing weeks of a season for crops that are wanted fresh: from four weeks after the last
/// frost to the first frost; the whole season without frost.
[[nodiscard]] calendar::WeekSpan fresh_weeks(calendar::WeekSpan season, const garden::Site& site);

}  // namespace aftercrop::load
