#include "aftercrop/climate/window.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/maturity.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;

const catalogue::WinterCoefficients& figures(const SiteClimate& site) {
  return site.coefficients().winter;
}

// No harvest within the weeks that a crop is followed: 300 days.
constexpr WindowVerdict kNeverReady{OutOfWindow::TooLate, 60.0, 43.0, "weeks to harvest"};

bool winter_rests(const Crop& crop, const SiteClimate& site) {
  return site.coldest_week_c() <
         std::min(crop.growth_min_c + figures(site).rest_c, figures(site).no_rest_c.value);
}

// Passing the coldest week: only for crops that overwinter, alive, and well enough grown.
WindowVerdict judge_winter(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const catalogue::WinterCoefficients& k = figures(site);
  const Week coldest = site.next_coldest(growth.first);
  if (coldest >= growth.past) return {};
  const double killed = site.frost().chance_in_winter(crop.kill_c);
  if (killed >= k.death_risk) {
    return {OutOfWindow::TooCold, 100.0 * killed, 100.0 * k.death_risk, "% killed in winter"};
  }
  if (!winter_rests(crop, site)) return {};
  if (!crop.overwinters && !lives_through_winter(crop, site)) {
    return {OutOfWindow::TooLate, 1.0 * growth.length().count(),
            1.0 * (coldest - growth.first).count(), "weeks"};
  }
  const double grown = site.degree_days(growth.first, coldest, crop.base_c, crop.cap_c);
  if (crop.id.compare(0, 10, "onion-bulb") == 0 && grown > k.onion_degree_days) {
    return {OutOfWindow::TooEarly, grown, k.onion_degree_days, "C.d before winter"};
  }
  const double days = std::min(days_in_bed(crop, site.coefficients().maturity),
                               site.coefficients().maturity.over_winter_days.value);
  const double least =
      k.established * days * catalogue_degree_days(crop.base_c, site.coefficients().catalogue_days);
  if (grown < least) return {OutOfWindow::TooLate, grown, least, "C.d before winter"};
  return {};
}

// The mean of the last half of growth, four weeks at least, against the published range.
double ripening_mean(const SiteClimate& site, WeekSpan growth) {
  const int half = std::max(4, (growth.length().count() + 1) / 2);
  const Week from = std::max(growth.first, growth.past - Weeks(half));
  return site.mean_air_c(from, growth.past + Weeks(1));
}

// What frost may not end too soon, heat may not either: where picking goes on, its shortest span is
// within the range too. What is taken at once is made by then.
WindowVerdict judge_heat(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  double mean = ripening_mean(site, growth);
  if (crop.harvest_mode != catalogue::HarvestMode::Single) {
    const Weeks picking(std::max(1, crop.harvest_weeks_min));
    mean = std::max(mean, site.mean_air_c(growth.past, growth.past + picking));
  }
  const double highest = crop.growth_max_c + site.coefficients().start.heat_slack_c;
  if (mean > highest) return {OutOfWindow::TooHot, mean, highest, "C"};
  return {};
}

// What is picked in a few weeks is to have its average harvest before the cold. Where picking goes
// on for long, frost takes only its end. A grower wants that in most years: tender crops that are
// picked soon have the trade's fortnight before the median frost, others most of the years.
WindowVerdict judge_frost_end(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const catalogue::WinterCoefficients& k = figures(site);
  const int least = std::max(1, crop.harvest_weeks_min);
  const bool soon = least < k.short_harvest_weeks;
  const bool ahead = soon && crop.sowing_class >= catalogue::SowingClass::Tender;
  const double risk = ahead ? k.death_risk.value : k.harvest_risk.value;
  const auto deadline = harvest_deadline(crop, site, growth.past, risk);
  if (!deadline) return {};
  const int harvest = usual_harvest_weeks(crop, k) + (ahead ? static_cast<int>(k.tender_weeks) : 0);
  const int needed = growth.length().count() + harvest;
  const int there_are = (*deadline - growth.first).count() + 1;
  if (needed <= there_are) return {};
  return {OutOfWindow::TooLate, 1.0 * needed, 1.0 * there_are, "weeks before frost"};
}

// Sprouting broccoli and its like: planted so that the catalogue's days end in spring.
WindowVerdict judge_winter_days(const Crop& crop, WeekSpan growth,
                                const catalogue::WinterCoefficients& k) {
  const double days = 7.0 * growth.length().count();
  if (days > crop.days_max + k.late_days) {
    return {OutOfWindow::TooEarly, days, crop.days_max + k.late_days, "days to harvest"};
  }
  if (days < crop.days_min - k.early_days) {
    return {OutOfWindow::TooLate, days, crop.days_min - k.early_days, "days to harvest"};
  }
  return {};
}

// A perennial is judged by its first winter alone: alive, and rooted before the cold.
WindowVerdict judge_perennial(const Crop& crop, const SiteClimate& site, Week start) {
  const catalogue::WinterCoefficients& k = figures(site);
  const double killed = site.frost().chance_in_winter(crop.kill_c);
  if (killed >= k.death_risk && crop.start != catalogue::Start::Crown) {
    return {OutOfWindow::TooCold, 100.0 * killed, 100.0 * k.death_risk, "% killed in winter"};
  }
  int growing = 0;
  const Week coldest = site.next_coldest(start);
  for (Week week = start; week < coldest; ++week) {
    if (site.at(week).air_c >= crop.growth_min_c) ++growing;
  }
  if (winter_rests(crop, site) && growing < k.rooting_weeks) {
    return {OutOfWindow::TooLate, 1.0 * growing, k.rooting_weeks, "weeks of growth before winter"};
  }
  const double mean = site.mean_air_c(start, start + Weeks(4));
  const double highest = crop.growth_max_c + site.coefficients().start.heat_slack_c;
  if (mean > highest) return {OutOfWindow::TooHot, mean, highest, "C"};
  return {};
}

}  // namespace

bool lives_through_winter(const Crop& crop, const SiteClimate& site) {
  const catalogue::Curve curve = crop.nitrogen.curve;
  const bool roots = curve == catalogue::Curve::Root || curve == catalogue::Curve::Bulb;
  return crop.sowing_class < catalogue::SowingClass::Tender && !roots &&
         site.frost().chance_in_winter(crop.kill_c) < figures(site).harvest_risk;
}

int usual_harvest_weeks(const Crop& crop, const catalogue::WinterCoefficients& k) {
  const int least = std::max(1, crop.harvest_weeks_min);
  if (least >= k.short_harvest_weeks) return least;
  return (least + std::max(least, crop.harvest_weeks_max) + 1) / 2;
}

WindowVerdict judge_cold_end(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const WindowVerdict verdict = judge_frost_end(crop, site, growth);
  if (!verdict.open() || crop.overwinters) return verdict;
  const double daylight = site.at(growth.past).daylight_h;
  const double least = site.coefficients().year.short_day_h;
  if (daylight < least) return {OutOfWindow::TooLate, daylight, least, "h at harvest"};
  const double mean = ripening_mean(site, growth);
  const catalogue::StartCoefficients& k = site.coefficients().start;
  const double slack = crop.growth_min_c < k.stops_below_c ? 0.0 : k.cold_slack_c.value;
  const double lowest = crop.growth_min_c - slack;
  if (mean < lowest) return {OutOfWindow::TooCold, mean, lowest, "C"};
  return {};
}

namespace {

constexpr double kYearDays = 365.0;

// Days from the middle of the week to the dates, 0 within the weeks that they touch.
double days_outside(const catalogue::StartDates& dates, Week start) {
  constexpr double kHalfWeek = 3.0;
  const int middle = year_day(calendar::monday(start).plus_days(3));
  const double length = days_forward(year_day(dates.first), year_day(dates.last));
  const double past = days_forward(year_day(dates.first), middle);
  if (past <= length + kHalfWeek || past >= kYearDays - kHalfWeek) return 0.0;
  return std::min(past - length, kYearDays - past) - kHalfWeek;
}

WindowVerdict judge_local(const Crop& crop, const SiteClimate& site, Week start) {
  double least = kYearDays;
  for (const catalogue::StartDates& dates : crop.local_calendar) {
    least = std::min(least, days_outside(dates, start));
  }
  if (least > 0.0)
    return {OutOfWindow::LocalCalendar, std::ceil(least / 7.0), 0.0, "weeks outside"};
  const bool ripens = crop.is_cover() || weeks_to_harvest(crop, site, start).has_value();
  if (!ripens) return kNeverReady;
  return {};
}

WindowVerdict judge_reckoned(const Crop& crop, const SiteClimate& site, Week start) {
  if (crop.is_cover()) return judge_cover(crop, site, start);
  if (crop.start == catalogue::Start::Clove) return judge_cloves(crop, site, start);
  WindowVerdict verdict = judge_earliest(crop, site, start);
  if (!verdict.open()) return verdict;
  if (crop.perennial() && crop.productive_years > 1) return judge_perennial(crop, site, start);
  const auto weeks = weeks_to_harvest(crop, site, start);
  if (!weeks) return kNeverReady;
  const WeekSpan growth{start, start + *weeks};
  if (counted_over_winter(crop, site.coefficients().maturity))
    verdict = judge_winter_days(crop, growth, figures(site));
  if (verdict.open()) verdict = judge_winter(crop, site, growth);
  if (verdict.open()) verdict = judge_cold_end(crop, site, growth);
  if (verdict.open()) verdict = judge_heat(crop, site, growth);
  if (verdict.open()) verdict = judge_crop_limits(crop, site, growth);
  return verdict;
}

}  // namespace

WindowVerdict judge_start(const Crop& crop, const SiteClimate& site, Week start) {
  if (crop.local_calendar.empty()) return judge_reckoned(crop, site, start);
  const WindowVerdict local = judge_local(crop, site, start);
  if (local.open() || site.shelter() == garden::Shelter::Open) return local;
  return judge_reckoned(crop, site, start);
}

}  // namespace aftercrop::climate
