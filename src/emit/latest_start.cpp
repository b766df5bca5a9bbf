#include "emit/latest_start.h"

#include <algorithm>

#include "aftercrop/climate/window.h"

namespace aftercrop::emit {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr int kWeeksLooked = 30;

bool fits(const catalogue::Crop& crop, const climate::SiteClimate& site, Week start,
          Week planned_end, std::optional<Week> next) {
  if (!climate::judge_start(crop, site, start).open()) return false;
  if (next && start >= *next) return false;
  if (crop.is_cover()) {
    const Week end = next.value_or(planned_end);
    return start < end && climate::cover_progress(crop, site, {start, end}).stand >= 1.0;
  }
  if (crop.perennial() && crop.productive_years > 1) return true;
  const auto growth = climate::weeks_to_harvest(crop, site, start);
  if (!growth) return false;
  const Week end = start + *growth + Weeks(std::max(1, crop.harvest_weeks_min));
  return !next || end <= *next;
}

}  // namespace

std::optional<calendar::Date> latest_start(const garden::Planting& planting,
                                           const catalogue::Crop& crop,
                                           const climate::SiteClimate& site,
                                           const std::optional<calendar::Date>& next) {
  const Week planned = calendar::week_of(planting.from);
  const Week end = garden::weeks_of(planting).past;
  std::optional<Week> next_week;
  if (next) next_week = calendar::week_of(*next);
  std::optional<calendar::Date> latest;
  for (int i = 0; i < kWeeksLooked; ++i) {
    const Week start = planned + Weeks(i);
    if (!fits(crop, site, start, end, next_week)) return latest;
    latest = calendar::monday(start).plus_days(6);
  }
  return {};
}

}  // namespace aftercrop::emit
