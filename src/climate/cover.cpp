#include <algorithm>
#include <cmath>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/window.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using catalogue::Crop;
using catalogue::FrostAnchor;

constexpr int kYear = 52;          // weeks
constexpr double kHalfWeek = 3.5;  // days: windows are judged by the middle of a week

struct Anchors {
  double last;
  double first;
};

// Windows are told from places whose first frost comes as the mean falls to that of autumn. Where
// mild winters bring it later, the fall of the mean stands for it.
double autumn(const SiteClimate& site, double first_frost) {
  const auto mild = site.cooled_down();
  if (!mild) return first_frost;
  return days_apart(*mild, first_frost) > 0.0 ? *mild : first_frost;
}

// Where no frost comes, the cool season stands for it: it begins when the mean falls through the
// yearly mean (in place of the first frost) and ends when it rises through it.
std::optional<Anchors> anchors(const SiteClimate& site) {
  const FrostModel& frost = site.frost();
  const auto last = frost.last_day(0.0);
  const auto first = frost.first_day(0.0);
  if (last && first) return Anchors{*last, autumn(site, *first)};
  if (site.no_season()) return std::nullopt;
  return Anchors{site.cool_season_end(), site.cool_season_start()};
}

double anchor_day(const Anchors& at, FrostAnchor anchor) {
  return anchor == FrostAnchor::LastFrost ? at.last : at.first;
}

// Days by which `day` misses the window: 0 inside. A window that the season is too short for is
// missed by its distance to the start.
double days_outside(const catalogue::CoverWindow& window, const Anchors& at, double day) {
  const double from = anchor_day(at, window.from_anchor);
  const double to = anchor_day(at, window.to_anchor);
  const double between = window.from_anchor == window.to_anchor ? 0.0 : days_forward(from, to);
  const double length = between + 7.0 * (window.to_weeks - window.from_weeks);
  const double past = days_forward(from + 7.0 * window.from_weeks - kHalfWeek, day);
  if (length >= 0.0 && past <= length + 2.0 * kHalfWeek) return 0.0;
  const double late = past - std::max(0.0, length) - 2.0 * kHalfWeek;
  const double early = 365.0 - past;
  return std::max(0.5, std::min(early, std::abs(late)));
}

// Sown so late that frost ends it before it is of use, a cover is not rewarded: it has to make a
// useful stand in four years of five, as what is picked has to make its harvest. Parts of a mixture
// are judged where they stand alone.
WindowVerdict judge_use(const Crop& crop, const SiteClimate& site, Week start) {
  if (!crop.mixture.empty()) return {};
  const catalogue::SiteCoefficients& k = site.coefficients();
  const Date shows =
      calendar::monday(start).plus_days(3 + static_cast<int>(k.covers.comes_up_days));
  const auto killed = site.frost().date_reached(shows, crop.kill_c, k.winter.harvest_risk);
  if (!killed) return {};
  const Week past = calendar::week_of(*killed);
  if (past - start >= calendar::Weeks(kYear)) return {};
  const double stand = cover_progress(crop, site, {start, past}).stand;
  if (stand >= 1.0) return {};
  return {OutOfWindow::TooLate, 100.0 * stand, 100.0, "% of a useful stand before frost"};
}

}  // namespace

WindowVerdict judge_cover(const Crop& crop, const SiteClimate& site, Week start) {
  const catalogue::CoverGrowthCoefficients& k = site.coefficients().covers;
  const WeekWeather& now = site.at(start);
  if (now.soil5_c < crop.soil_min_c) {
    return {OutOfWindow::SoilTooCold, now.soil5_c, crop.soil_min_c, "C"};
  }
  if (now.air_c < crop.base_c) return {OutOfWindow::TooCold, now.air_c, crop.base_c, "C"};
  const double hottest = crop.growth_max_c + site.coefficients().start.heat_slack_c;
  if (now.air_c > hottest) return {OutOfWindow::TooHot, now.air_c, hottest, "C"};
  const auto at = anchors(site);
  if (!at) return {};
  const Date shows = calendar::monday(start).plus_days(3 + static_cast<int>(k.comes_up_days));
  const bool spring = site.frost().in_spring_half(shows);
  const double risk = spring ? site.frost().chance_after(shows, crop.kill_c) : 0.0;
  if (crop.kill_c >= 0.0 && risk > k.tender_risk) {
    return {OutOfWindow::TooEarly, 100.0 * risk, 100.0 * k.tender_risk, "% frost to come"};
  }
  const double day = year_day(calendar::monday(start).plus_days(3));
  double least = 365.0;
  for (const catalogue::CoverWindow& window : crop.cover->windows) {
    least = std::min(least, days_outside(window, *at, day));
  }
  if (least == 0.0) return judge_use(crop, site, start);
  return {OutOfWindow::CoverWindow, std::ceil(least / 7.0), 0.0, "weeks outside"};
}

CoverProgress cover_progress(const Crop& crop, const SiteClimate& site, calendar::WeekSpan stand) {
  const catalogue::CoverGrowthCoefficients& k = site.coefficients().covers;
  const double weeks_needed = std::max(1, crop.cover ? crop.cover->weeks_to_stand : 5);
  double grown = 0.0;
  for (Week week = stand.first; week < stand.past; ++week) {
    grown += std::clamp((site.at(week).air_c - crop.base_c) / k.full_growth_c, 0.0, 1.0);
  }
  const double to_flower = k.flower_factor * 7.0 * weeks_needed *
                           catalogue_degree_days(crop.base_c, site.coefficients().catalogue_days);
  const double sum = site.degree_days(stand.first, stand.past, crop.base_c, crop.cap_c);
  return {grown / weeks_needed, sum / to_flower};
}

std::optional<Week> killed_by_frost(const Crop& crop, const SiteClimate& site,
                                    calendar::WeekSpan stand) {
  const FrostModel& frost = site.frost();
  for (Week week = stand.first; week < stand.past; ++week) {
    const Date end = calendar::monday(week).plus_days(6);
    if (frost.in_spring_half(end)) continue;
    if (frost.chance_before(end, crop.kill_c) >= site.coefficients().covers.surely_dead)
      return week;
  }
  return std::nullopt;
}

}  // namespace aftercrop::climate
