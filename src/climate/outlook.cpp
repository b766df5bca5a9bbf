#include "aftercrop/climate/outlook.h"

#include <utility>

#include "aftercrop/climate/window.h"

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr int kYear = 52;

void grow(std::vector<WeekSpan>& spans, Week week) {
  if (spans.empty() || spans.back().past != week) spans.push_back({week, week});
  spans.back().past = week + Weeks(1);
}

std::vector<WeekSpan> open_weeks(const catalogue::Crop& crop, const SiteClimate& site, Week start) {
  std::vector<WeekSpan> spans;
  for (Week week = start; week < start + Weeks(kYear); ++week) {
    if (judge_start(crop, site, week).open()) grow(spans, week);
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

Season season_from(const catalogue::Crop& crop, const SiteClimate& site, Week first) {
  Season season;
  season.before = judge_start(crop, site, first - Weeks(1));
  Week week = first;
  for (; week < first + Weeks(kYear); ++week) {
    season.after = judge_start(crop, site, week);
    if (!season.after.open()) break;
    if (crop.is_cover()) continue;
    const auto found = ripening(crop, site, week);
    if (!found) continue;
    const Week harvest = week + found->weeks;
    if (!season.first_harvest || harvest < *season.first_harvest) season.first_harvest = harvest;
    season.last_harvest = harvest;
    if (found->early) grow(season.early, week);
  }
  season.starts = {first, week};
  return season;
}

}  // namespace

std::vector<Season> seasons_of(const catalogue::Crop& crop, const SiteClimate& site, Week from) {
  std::vector<Season> found;
  bool open = judge_start(crop, site, from - Weeks(1)).open();
  for (Week week = from; week < from + Weeks(kYear); ++week) {
    const bool before = std::exchange(open, judge_start(crop, site, week).open());
    if (open && !before) found.push_back(season_from(crop, site, week));
  }
  if (found.empty() && open) found.push_back(season_from(crop, site, from));
  return found;
}

Outlook outlook_of(const catalogue::Crop& crop, const SiteClimate& site, Week start) {
  Outlook outlook;
  outlook.start = start;
  outlook.open = judge_start(crop, site, start).open();
  outlook.open_weeks = open_weeks(crop, site, start);
  if (!outlook.open) return outlook;
  if (crop.is_cover()) {
    outlook.useful = useful_from(crop, site, start);
    outlook.killed = killed_by_frost(crop, site, {start, start + Weeks(kYear)});
  } else if (const auto found = ripening(crop, site, start)) {
    outlook.harvest = start + found->weeks;
    outlook.early = found->early;
  }
  return outlook;
}

}  // namespace aftercrop::climate
