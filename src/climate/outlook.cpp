#include "aftercrop/climate/outlook.h"

#include "aftercrop/climate/window.h"

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr int kYear = 52;

std::vector<WeekSpan> open_weeks(const catalogue::Crop& crop, const SiteClimate& site, Week start) {
  std::vector<WeekSpan> spans;
  for (Week week = start; week < start + Weeks(kYear); ++week) {
    if (!judge_start(crop, site, week).open()) continue;
    if (spans.empty() || spans.back().past != week) spans.push_back({week, week});
    spans.back().past = week + Weeks(1);
  }
  return spans;
}

std::optional<Week> useful_from(const catalogue::Crop& crop, const SiteClimate& site, Week start) {
  for (int weeks = 1; weeks <= kYear; ++weeks) {
    const WeekSpan span{start, start + Weeks(weeks)};
    if (cover_progress(crop, site, span).stand >= 1.0) return span.past;
  }
  return {};
}

}  // namespace

Outlook outlook_of(const catalogue::Crop& crop, const SiteClimate& site, Week start) {
  Outlook outlook;
  outlook.start = start;
  outlook.open = judge_start(crop, site, start).open();
  outlook.open_weeks = open_weeks(crop, site, start);
  if (!outlook.open) return outlook;
  if (crop.is_cover()) {
    outlook.useful = useful_from(crop, site, start);
    outlook.killed = killed_by_frost(crop, site, {start, start + Weeks(kYear)});
  } else if (const auto growing = weeks_to_harvest(crop, site, start)) {
    outlook.harvest = start + *growing;
  }
  return outlook;
}

}  // namespace aftercrop::climate
