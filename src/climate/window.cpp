#include "aftercrop/climate/window.h"

#include <algorithm>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/maturity.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;

constexpr double kDeathRisk = 0.5;     // of years, unprotected; the grower may cover
constexpr double kWinterRest = 4.0;    // C above the growth minimum: no rest (our choice)
constexpr double kNoRestAbove = 15.0;  // C in the coldest week: nothing rests (our choice)
constexpr double kEstablished = 0.5;   // share of growth made before the coldest week (our choice)
constexpr double kOnionBeforeCold = 600.0;  // C.d above 1.7: larger bulbs bolt (common practice)
constexpr double kEarlyDays = 30.0;         // days a winter crop may differ from its catalogue days
constexpr double kLateDays = 45.0;
// What is picked in a few weeks is to have its average harvest before the cold, tender crops a
// fortnight earlier still (Virginia Cooperative Extension 426-331: days to harvest, average harvest
// period, factor for frost-tender crops). Where picking goes on for long, frost takes only its end.
constexpr int kTenderWeeks = 2;
constexpr int kShortHarvest = 4;
// The last date is the earlier of first frost and the last ten-hour day (UC Master Gardeners of
// Sonoma County).
constexpr double kGrowingDay = 10.0;
constexpr int kRootingWeeks = 8;  // weeks of growth a perennial needs before the cold

bool winter_rests(const Crop& crop, const SiteClimate& site) {
  return site.coldest_week_c() < std::min(crop.growth_min_c + kWinterRest, kNoRestAbove);
}

// Passing the coldest week: only for crops that overwinter, alive, and well enough grown.
WindowVerdict judge_winter(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const Week coldest = site.next_coldest(growth.first);
  if (coldest >= growth.past) return {};
  const double killed = site.frost().chance_in_winter(crop.kill_c);
  if (killed >= kDeathRisk) {
    return {OutOfWindow::TooCold, 100.0 * killed, 100.0 * kDeathRisk, "% killed in winter"};
  }
  if (!winter_rests(crop, site)) return {};
  if (!crop.overwinters) {
    return {OutOfWindow::TooLate, 1.0 * growth.length().count(),
            1.0 * (coldest - growth.first).count(), "weeks"};
  }
  const double grown = site.degree_days(growth.first, coldest, crop.base_c, crop.cap_c);
  if (crop.id.compare(0, 10, "onion-bulb") == 0 && grown > kOnionBeforeCold) {
    return {OutOfWindow::TooEarly, grown, kOnionBeforeCold, "C.d before winter"};
  }
  const double days = std::min(days_in_bed(crop), 180.0);
  const double least = kEstablished * days * catalogue_degree_days(crop.base_c);
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
  const double highest = crop.growth_max_c + kHeatSlack;
  if (mean > highest) return {OutOfWindow::TooHot, mean, highest, "C"};
  return {};
}

WindowVerdict judge_frost_end(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const auto deadline = harvest_deadline(crop, site, growth.past, kDeathRisk);
  if (!deadline) return {};
  const int least = std::max(1, crop.harvest_weeks_min);
  const bool soon = least < kShortHarvest;
  const bool tender = crop.sowing_class >= catalogue::SowingClass::Tender;
  const int average = (least + std::max(least, crop.harvest_weeks_max) + 1) / 2;
  const int harvest = soon ? average + (tender ? kTenderWeeks : 0) : least;
  const int needed = growth.length().count() + harvest;
  const int there_are = (*deadline - growth.first).count() + 1;
  if (needed <= there_are) return {};
  return {OutOfWindow::TooLate, 1.0 * needed, 1.0 * there_are, "weeks before frost"};
}

// Sprouting broccoli and its like: planted so that the catalogue's days end in spring.
WindowVerdict judge_winter_days(const Crop& crop, WeekSpan growth) {
  const double days = 7.0 * growth.length().count();
  if (days > crop.days_max + kLateDays) {
    return {OutOfWindow::TooEarly, days, crop.days_max + kLateDays, "days to harvest"};
  }
  if (days < crop.days_min - kEarlyDays) {
    return {OutOfWindow::TooLate, days, crop.days_min - kEarlyDays, "days to harvest"};
  }
  return {};
}

// A perennial is judged by its first winter alone: alive, and rooted before the cold.
WindowVerdict judge_perennial(const Crop& crop, const SiteClimate& site, Week start) {
  const double killed = site.frost().chance_in_winter(crop.kill_c);
  if (killed >= kDeathRisk && crop.start != catalogue::Start::Crown) {
    return {OutOfWindow::TooCold, 100.0 * killed, 100.0 * kDeathRisk, "% killed in winter"};
  }
  int growing = 0;
  const Week coldest = site.next_coldest(start);
  for (Week week = start; week < coldest; ++week) {
    if (site.at(week).air_c >= crop.growth_min_c) ++growing;
  }
  if (winter_rests(crop, site) && growing < kRootingWeeks) {
    return {OutOfWindow::TooLate, 1.0 * growing, kRootingWeeks, "weeks of growth before winter"};
  }
  const double mean = site.mean_air_c(start, start + Weeks(4));
  const double highest = crop.growth_max_c + kHeatSlack;
  if (mean > highest) return {OutOfWindow::TooHot, mean, highest, "C"};
  return {};
}

}  // namespace

WindowVerdict judge_cold_end(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const WindowVerdict verdict = judge_frost_end(crop, site, growth);
  if (!verdict.open() || crop.overwinters) return verdict;
  const double daylight = site.at(growth.past).daylight_h;
  if (daylight < kGrowingDay) return {OutOfWindow::TooLate, daylight, kGrowingDay, "h at harvest"};
  const double mean = ripening_mean(site, growth);
  const double lowest = crop.growth_min_c - (crop.growth_min_c < kCoolMin ? 0.0 : kColdSlack);
  if (mean < lowest) return {OutOfWindow::TooCold, mean, lowest, "C"};
  return {};
}

WindowVerdict judge_start(const Crop& crop, const SiteClimate& site, Week start) {
  if (crop.is_cover()) return judge_cover(crop, site, start);
  if (crop.start == catalogue::Start::Clove) return judge_cloves(crop, site, start);
  WindowVerdict verdict = judge_earliest(crop, site, start);
  if (!verdict.open()) return verdict;
  if (crop.perennial() && crop.productive_years > 1) return judge_perennial(crop, site, start);
  const auto weeks = weeks_to_harvest(crop, site, start);
  if (!weeks) return {OutOfWindow::TooLate, 60.0, 43.0, "weeks to harvest"};
  const WeekSpan growth{start, start + *weeks};
  if (counted_over_winter(crop)) verdict = judge_winter_days(crop, growth);
  if (verdict.open()) verdict = judge_winter(crop, site, growth);
  if (verdict.open()) verdict = judge_cold_end(crop, site, growth);
  if (verdict.open()) verdict = judge_heat(crop, site, growth);
  if (verdict.open()) verdict = judge_crop_limits(crop, site, growth);
  return verdict;
}

}  // namespace aftercrop::climate
