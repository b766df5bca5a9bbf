#include "aftercrop/climate/maturity.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/climate/degree_days.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using catalogue::Crop;

constexpr double kPlantAhead = 14.0;    // days a plant is ahead of a seed (common practice)
constexpr double kGarlicNeed = 1500.0;  // C.d above 0 from the spring equinox (our choice)
constexpr double kOverWinterDays = 180.0;
constexpr double kSpringHours = 12.0;  // overwintered brassicas head above 12 h (common practice)
constexpr int kOverwinterLimit = 340;  // days; an overwintering crop ends within the year
constexpr int kAnnualLimit = 300;
// A cool summer that makes the middle cultivar a quarter slower than its catalogue says is one that
// early cultivars are grown in (our choice).
constexpr double kSlow = 1.25;
constexpr int kSwellingWeeks = 5;  // of a bulb, before harvest (our choice)

Weeks weeks_of(int days) { return Weeks(std::max(1, (days + 6) / 7)); }

// Headed in spring, when days pass twelve hours after the coldest week.
std::optional<Weeks> spring_weeks(const SiteClimate& site, Week start) {
  Week week = site.next_coldest(start);
  for (int i = 0; i < 30; ++i, ++week) {
    if (site.at(week).daylight_h >= kSpringHours) return week - start;
  }
  return std::nullopt;
}

// Garlic makes its bulb as days lengthen past about twelve hours (University of California IPM):
// warmth before that makes leaves only, so that mild winters do not hurry it.
std::optional<Weeks> garlic_weeks(const SiteClimate& site, Week start) {
  const auto spring = spring_weeks(site, start);
  if (!spring) return std::nullopt;
  const auto days =
      site.days_to_sum(calendar::monday(start + *spring), kGarlicNeed, {}, kAnnualLimit);
  if (!days) return std::nullopt;
  return *spring + weeks_of(*days);
}

// A perennial gives first when it is old enough and growing again.
std::optional<Weeks> perennial_weeks(const Crop& crop, const SiteClimate& site, Week start) {
  const double growing = std::max(10.0, crop.growth_min_c + 3.0);
  Week week = start + weeks_of(static_cast<int>(std::lround(crop.days_min)));
  for (int i = 0; i < 53; ++i, ++week) {
    if (site.at(week).air_c >= growing) return week - start;
  }
  return std::nullopt;
}

// A bulb needs its day length while it swells: the harvest waits for it.
std::optional<Weeks> after_bulbing(const SiteClimate& site, Week start, Weeks weeks,
                                   double bulbing) {
  for (int more = 0; more < 40; ++more) {
    const Week swelling = start + weeks + Weeks(more - kSwellingWeeks);
    if (site.at(swelling).daylight_h >= bulbing) return weeks + Weeks(more);
  }
  return std::nullopt;
}

std::optional<Weeks> weeks_of_annual(const Crop& crop, const SiteClimate& site, Week start,
                                     double days) {
  const double need = days * catalogue_degree_days(crop.base_c);
  const int limit = crop.overwinters ? kOverwinterLimit : kAnnualLimit;
  const auto found = stretch(site, calendar::monday(start), need, days, thermal_time(crop), limit);
  if (!found) return std::nullopt;
  const Weeks weeks = weeks_of(found->days);
  const double bulbing = bulbing_hours(crop, site.latitude());
  return bulbing > 0.0 ? after_bulbing(site, start, weeks, bulbing) : weeks;
}

}  // namespace

std::optional<Stretch> stretch(const SiteClimate& site, Date start, double need,
                               double maturity_days, ThermalTime time, int limit) {
  const auto thermal = site.days_to_sum(start, need, time, limit);
  if (!thermal) return std::nullopt;
  const Date last = start.plus_days(*thermal - 1);
  Stretch result{*thermal, site.daylight_h(last), 0};
  const bool lengthening = site.daylight_h(last.plus_days(1)) > result.daylight_h;
  const double short_days = std::clamp((12.5 - result.daylight_h) / 2.0, 0.0, 1.0);
  const double floor = lengthening ? 0.85 * maturity_days : maturity_days + 14.0 * short_days;
  result.days = static_cast<int>(std::floor(std::max<double>(*thermal, floor) + 0.5));
  return result;
}

double days_in_bed(const Crop& crop) {
  const double days = (crop.days_min + crop.days_max) / 2.0;
  const bool seedling =
      crop.start == catalogue::Start::Sow || crop.start == catalogue::Start::Either;
  if (crop.days_from_transplanting && seedling) return days + kPlantAhead;
  if (!crop.days_from_transplanting && crop.start == catalogue::Start::Transplant) {
    return std::max(days / 2.0, days - kPlantAhead);
  }
  return days;
}

bool counted_over_winter(const Crop& crop) {
  return crop.overwinters && (crop.days_min + crop.days_max) / 2.0 >= kOverWinterDays;
}

std::optional<Weeks> weeks_to_harvest(const Crop& crop, const SiteClimate& site, Week start) {
  if (counted_over_winter(crop)) {
    if (crop.start == catalogue::Start::Clove) return garlic_weeks(site, start);
    return crop.perennial() ? perennial_weeks(crop, site, start) : spring_weeks(site, start);
  }
  const double days = days_in_bed(crop);
  const auto usual = weeks_of_annual(crop, site, start, days);
  const bool slow = usual && 7.0 * usual->count() > kSlow * days;
  const bool ends_well = usual && judge_cold_end(crop, site, {start, start + *usual}).open();
  if (crop.overwinters || (ends_well && !slow)) return usual;
  const double early = days - (crop.days_max - crop.days_min) / 2.0;
  const auto quick = weeks_of_annual(crop, site, start, early);
  if (quick && judge_cold_end(crop, site, {start, start + *quick}).open()) return quick;
  return usual;
}

std::optional<Week> harvest_deadline(const Crop& crop, const SiteClimate& site, Week harvest_from,
                                     double risk) {
  const Date end = calendar::monday(harvest_from).plus_days(6);
  const auto date = site.frost().date_reached(end, crop.kill_c, risk);
  if (!date || calendar::days_between(end, *date) > 7 * 60) return std::nullopt;
  const int weeks = (calendar::days_between(end, *date) + 6) / 7;
  return harvest_from + Weeks(weeks - 1);
}

}  // namespace aftercrop::climate
