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

constexpr int kOverwinterLimit = 340;  // days; an overwintering crop ends within the year
constexpr int kAnnualLimit = 300;
constexpr int kShortDayWeeks = 30;  // longer nights end the season for good

const catalogue::MaturityCoefficients& figures(const SiteClimate& site) {
  return site.coefficients().maturity;
}

Weeks weeks_of(int days) { return Weeks(std::max(1, (days + 6) / 7)); }

// Headed in spring, when days are long enough after the coldest week.
std::optional<Weeks> spring_weeks(const SiteClimate& site, Week start) {
  Week week = site.next_coldest(start);
  for (int i = 0; i < 30; ++i, ++week) {
    if (site.at(week).daylight_h >= figures(site).spring_h) return week - start;
  }
  return std::nullopt;
}

// Garlic makes its bulb as days lengthen:
// warmth before that makes leaves only, so that mild winters do not hurry it.
std::optional<Weeks> garlic_weeks(const SiteClimate& site, Week start) {
  const auto spring = spring_weeks(site, start);
  if (!spring) return std::nullopt;
  const auto days = site.days_to_sum(calendar::monday(start + *spring),
                                     figures(site).garlic_degree_days, {}, kAnnualLimit);
  if (!days) return std::nullopt;
  return *spring + weeks_of(*days);
}

// A perennial gives first when it is old enough and growing again.
std::optional<Weeks> perennial_weeks(const Crop& crop, const SiteClimate& site, Week start) {
  const double growing =
      std::max(figures(site).regrowth_least_c.value, crop.growth_min_c + figures(site).regrowth_c);
  Week week = start + weeks_of(static_cast<int>(std::lround(crop.days_min)));
  for (int i = 0; i < 53; ++i, ++week) {
    if (site.at(week).air_c >= growing) return week - start;
  }
  return std::nullopt;
}

// A bulb needs its day length while it swells: the harvest waits for it.
std::optional<Weeks> after_bulbing(const SiteClimate& site, Week start, Weeks weeks,
                                   double bulbing) {
  const int before = static_cast<int>(figures(site).swelling_weeks);
  for (int more = 0; more < 40; ++more) {
    const Week swelling = start + weeks + Weeks(more - before);
    if (site.at(swelling).daylight_h >= bulbing) return weeks + Weeks(more);
  }
  return std::nullopt;
}

// What is not ready when the days grow short hardly grows on: where it lives, it is ready when they
// are longer again.
Weeks after_short_days(const Crop& crop, const SiteClimate& site, Week start, Weeks weeks) {
  const double least = site.coefficients().year.short_day_h;
  if (crop.overwinters || site.at(start + weeks).daylight_h >= least) return weeks;
  if (!lives_through_winter(crop, site)) return weeks;
  for (int more = 1; more < kShortDayWeeks; ++more) {
    if (site.at(start + weeks + Weeks(more)).daylight_h >= least) return weeks + Weeks(more);
  }
  return weeks;
}

std::optional<Weeks> weeks_of_annual(const Crop& crop, const SiteClimate& site, Week start,
                                     double days) {
  const double need = days * catalogue_degree_days(crop.base_c, site.coefficients().catalogue_days);
  const int limit = crop.overwinters ? kOverwinterLimit : kAnnualLimit;
  const auto found = stretch(site, calendar::monday(start), need, days, thermal_time(crop), limit);
  if (!found) return std::nullopt;
  const Weeks weeks = weeks_of(found->days);
  const double bulbing = bulbing_hours(crop, site);
  if (bulbing > 0.0) return after_bulbing(site, start, weeks, bulbing);
  return after_short_days(crop, site, start, weeks);
}

}  // namespace

std::optional<Stretch> stretch(const SiteClimate& site, Date start, double need,
                               double maturity_days, ThermalTime time, int limit) {
  const auto thermal = site.days_to_sum(start, need, time, limit);
  if (!thermal) return std::nullopt;
  const Date last = start.plus_days(*thermal - 1);
  Stretch result{*thermal, site.daylight_h(last), 0};
  const bool lengthening = site.daylight_h(last.plus_days(1)) > result.daylight_h;
  const catalogue::MaturityCoefficients& k = figures(site);
  const double short_days = std::clamp(
      (k.autumn_from_h - result.daylight_h) / (k.autumn_from_h - k.autumn_to_h), 0.0, 1.0);
  const double floor =
      lengthening ? k.rising_share * maturity_days : maturity_days + k.autumn_days * short_days;
  result.days = static_cast<int>(std::floor(std::max<double>(*thermal, floor) + 0.5));
  return result;
}

double days_in_bed(const Crop& crop, const catalogue::MaturityCoefficients& k) {
  const double days = (crop.days_min + crop.days_max) / 2.0;
  const bool seedling =
      crop.start == catalogue::Start::Sow || crop.start == catalogue::Start::Either;
  if (crop.days_from_transplanting && seedling) return days + k.plant_ahead_days;
  if (!crop.days_from_transplanting && crop.start == catalogue::Start::Transplant) {
    return std::max(days / 2.0, days - k.plant_ahead_days);
  }
  return days;
}

bool counted_over_winter(const Crop& crop, const catalogue::MaturityCoefficients& k) {
  return crop.overwinters && (crop.days_min + crop.days_max) / 2.0 >= k.over_winter_days;
}

std::optional<Ripening> ripening(const Crop& crop, const SiteClimate& site, Week start) {
  const auto plain = [](std::optional<Weeks> weeks) -> std::optional<Ripening> {
    if (!weeks) return std::nullopt;
    return Ripening{*weeks, false};
  };
  if (counted_over_winter(crop, figures(site))) {
    if (crop.start == catalogue::Start::Clove) return plain(garlic_weeks(site, start));
    return plain(crop.perennial() ? perennial_weeks(crop, site, start) : spring_weeks(site, start));
  }
  const double days = days_in_bed(crop, figures(site));
  const auto usual = weeks_of_annual(crop, site, start, days);
  const bool drawn_out = usual && 7.0 * usual->count() > figures(site).slow_summer * days;
  const bool waits =
      drawn_out && site.next_coldest(start) < start + *usual && lives_through_winter(crop, site);
  const bool slow = drawn_out && !waits;
  const bool ends_well = usual && judge_cold_end(crop, site, {start, start + *usual}).open();
  if (crop.overwinters || (ends_well && !slow)) return plain(usual);
  const double early = days - (crop.days_max - crop.days_min) / 2.0;
  const auto quick = weeks_of_annual(crop, site, start, early);
  if (quick && judge_cold_end(crop, site, {start, start + *quick}).open()) {
    return Ripening{*quick, early < days && !crop.perennial()};
  }
  return plain(usual);
}

std::optional<Weeks> weeks_to_harvest(const Crop& crop, const SiteClimate& site, Week start) {
  const auto found = ripening(crop, site, start);
  if (!found) return std::nullopt;
  return found->weeks;
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
