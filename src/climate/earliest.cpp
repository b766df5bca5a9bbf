#include <algorithm>
#include <array>
#include <cmath>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/earliest.h"
#include "aftercrop/climate/germination.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using catalogue::Crop;
using catalogue::SowingClass;
using catalogue::Start;

bool needs_warm_soil(const Crop& crop) {
  return crop.start != Start::Transplant && crop.start != Start::Slip;
}

constexpr int kTuberDays = 120;  // a tuber waits as long as the soil is cold

// What goes into the ground without leaves.
bool buried(const Crop& crop) {
  return crop.start == Start::Sow || crop.start == Start::Either || crop.start == Start::Tuber ||
         crop.start == Start::Set;
}

// Days from the start until a shoot shows, with the soil of each week on the way; not tested = the
// usual days. Until then no frost harms it.
int days_hidden(const Crop& crop, const SiteClimate& site, Week week) {
  if (!buried(crop)) return 0;
  const catalogue::SiteCoefficients& k = site.coefficients();
  const int most =
      crop.start == Start::Tuber ? kTuberDays : static_cast<int>(k.start.emergence_days_most);
  double shown = 0.0;
  for (int days = 0; days < most; days += 7, ++week) {
    const auto tested = emergence_rate(crop.id, site.at(week).soil5_c, k.emergence);
    const double rate = tested.value_or(1.0 / k.start.emergence_days);
    if (shown + 7.0 * rate >= 1.0) {
      return std::min(most, days + static_cast<int>((1.0 - shown) / rate));
    }
    shown += 7.0 * rate;
  }
  return most;
}

// Soil for seed: over the minimum in spring, because the model's spring soil runs warm; less, down
// to the minimum, where the summer soil is hardly warmer than that.
double seed_soil(const Crop& crop, const SiteClimate& site, bool spring) {
  if (!spring) return crop.soil_min_c;
  const catalogue::StartCoefficients& k = site.coefficients().start;
  const double reachable = site.warmest_soil_c() - k.under_warmest_soil_c;
  return std::clamp(reachable, crop.soil_min_c, crop.soil_min_c + k.over_soil_minimum_c);
}

WindowVerdict judge_warmth(const Crop& crop, const SiteClimate& site, Week start, bool spring) {
  const WeekWeather& now = site.at(start);
  if (spring && crop.spring_min_c && now.air_c < *crop.spring_min_c) {
    return {OutOfWindow::TooCold, now.air_c, *crop.spring_min_c, "C"};
  }
  const catalogue::StartCoefficients& k = site.coefficients().start;
  const double air = crop.base_c + k.air_over_base_c;
  if (!needs_warm_soil(crop)) {
    if (now.air_c < air) return {OutOfWindow::TooCold, now.air_c, air, "C"};
    return {};
  }
  const bool seed = crop.start == Start::Sow || crop.start == Start::Either;
  if (crop.start == Start::Sow && crop.soil_max_c && now.soil5_c > *crop.soil_max_c) {
    return {OutOfWindow::TooHot, now.soil5_c, *crop.soil_max_c, "C in the soil"};
  }
  const double soil = seed ? seed_soil(crop, site, spring) : crop.soil_min_c;
  if (now.soil5_c >= soil) return {};
  const bool as_plant = crop.start == Start::Either && now.air_c >= air &&
                        now.soil5_c >= crop.soil_min_c - k.plants_bear_c;
  if (as_plant) return {};
  return {OutOfWindow::SoilTooCold, now.soil5_c, soil, "C"};
}

}  // namespace

EarliestRule earliest_rule(SowingClass sowing_class, const catalogue::EarliestStarts& starts) {
  const auto at = static_cast<std::size_t>(sowing_class);
  return {starts.days_from_last_frost[at], starts.hurts_seedling_c[at], starts.risk[at]};
}

WindowVerdict judge_earliest(const Crop& crop, const SiteClimate& site, Week start) {
  const catalogue::SiteCoefficients& k = site.coefficients();
  const FrostModel& frost = site.frost();
  const Date middle = calendar::monday(start).plus_days(3);
  const bool spring = frost.in_spring_half(middle);
  const EarliestRule rule = earliest_rule(crop.sowing_class, k.earliest);
  const bool tender = crop.sowing_class >= SowingClass::Tender;
  const Date shows = middle.plus_days(days_hidden(crop, site, start));
  const auto since_last = frost.days_since_last(shows);
  if (spring && since_last && frost.in_spring_half(shows)) {
    const double since = *since_last;
    // The trade's days are told for the inland north, where the cold that hurts seedlings binds
    // later than they do. By mild coasts light frosts go on for weeks that hardy seed does not
    // mind: there the cold itself decides.
    if (tender && since < rule.days_from_last_frost) {
      return {OutOfWindow::TooEarly, since, rule.days_from_last_frost, "days from last frost"};
    }
    // Seedlings bear more than old plants; the shoots of a tuber do not.
    const double hurts = crop.start == Start::Tuber ? std::max(rule.hurts_seedling_c, crop.kill_c)
                                                    : rule.hurts_seedling_c;
    const double chance = frost.chance_after(shows, hurts);
    if (chance > rule.risk) {
      return {OutOfWindow::TooEarly, 100.0 * chance, 100.0 * rule.risk, "% frost to come"};
    }
  }
  const double daylight = site.at(start).daylight_h;
  const double air = site.at(start).air_c;
  const bool stops = crop.growth_min_c < k.start.stops_below_c && air < crop.growth_min_c;
  if (spring && stops && !site.no_season()) {
    return {OutOfWindow::TooCold, air, crop.growth_min_c, "C"};
  }
  if (!crop.overwinters && daylight < k.year.short_day_h) {
    return {OutOfWindow::DayTooShort, daylight, k.year.short_day_h, "h"};
  }
  return judge_warmth(crop, site, start, spring && !site.no_season());
}

// Cloves go in when the soil has cooled, weeks before it freezes, with a cold spell to come: where
// it does not freeze, any time in winter.
WindowVerdict judge_cloves(const Crop& crop, const SiteClimate& site, Week start) {
  const catalogue::StartCoefficients& k = site.coefficients().start;
  const Week coldest = site.next_coldest(start);
  int cold = 0;
  for (Week week = start; week < coldest + Weeks(16); ++week) {
    if (site.at(week).air_c < k.chill_c) ++cold;
  }
  if (cold < k.chill_weeks) {
    return {OutOfWindow::NoColdSpell, 1.0 * cold, k.chill_weeks, "weeks of cold"};
  }
  const double soil = site.at(start).soil5_c;
  const bool spring = site.frost().in_spring_half(calendar::monday(start).plus_days(3));
  if (spring) return {OutOfWindow::TooLate, 1.0 * cold, k.chill_weeks, "weeks of cold left"};
  if (soil > k.cloves_soil_c) return {OutOfWindow::TooEarly, soil, k.cloves_soil_c, "C"};
  const double later =
      site.at(start + Weeks(static_cast<int>(k.cloves_before_frozen_weeks))).soil5_c;
  if (later < 0.0) return {OutOfWindow::TooLate, later, 0.0, "C"};
  if (!weeks_to_harvest(crop, site, start)) return {OutOfWindow::TooLate, 0.0, 0.0, ""};
  return {};
}

}  // namespace aftercrop::climate
