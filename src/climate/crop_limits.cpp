#include <algorithm>
#include <cmath>
#include <string_view>

#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;

bool is(const Crop& crop, std::string_view start) {
  return crop.id.compare(0, start.size(), start) == 0;
}

// Bulb onions: the type that suits the latitude, and the day length that makes it bulb.
WindowVerdict judge_onion(const SiteClimate& site, Week start, double threshold) {
  const catalogue::CropLimitCoefficients& k = site.coefficients().limits;
  const double longest = site.longest_day_h();
  if (longest < threshold + k.bulbing_margin_h) {
    return {OutOfWindow::DayTooShort, longest, threshold + k.bulbing_margin_h, "h"};
  }
  // Past the date at which bulbing begins there is no time left for leaves.
  const bool falling = site.at(start + Weeks(1)).daylight_h < site.at(start).daylight_h;
  const double before = site.at(start - Weeks(static_cast<int>(k.leaf_weeks_after))).daylight_h;
  if (falling ? site.at(start).daylight_h < threshold : before < threshold) return {};
  return {OutOfWindow::TooLate, before, threshold, "h"};
}

// Flowers, pods and tubers that do not set make no harvest. What is picked over for weeks sets for
// as many: the week in which the first of it sets has to be cool enough, and the mean of all weeks
// in which the usual harvest sets. What is taken at once sets and grows until then. The published
// limits are those from which flowers are lost, not those at which all are: so the middle year is
// asked, not four of five.
WindowVerdict judge_setting(const Crop& crop, const SiteClimate& site, Week harvest) {
  if (!crop.setting) return {};
  const Week from = harvest - Weeks(crop.setting->weeks);
  const bool at_once = crop.harvest_mode == catalogue::HarvestMode::Single;
  const int weeks =
      at_once ? crop.setting->weeks : usual_harvest_weeks(crop, site.coefficients().winter);
  double night = 0.0;
  double noon = 0.0;
  for (int i = 0; i < weeks; ++i) {
    night += site.at(from + Weeks(i)).tmin_c / weeks;
    noon += site.at(from + Weeks(i)).tmax_c / weeks;
  }
  night = std::max(night, site.at(from).tmin_c);
  noon = std::max(noon, site.at(from).tmax_c);
  if (night > crop.setting->night_c) {
    return {OutOfWindow::TooHot, night, crop.setting->night_c, "C at night"};
  }
  if (noon > crop.setting->day_c) {
    return {OutOfWindow::TooHot, noon, crop.setting->day_c, "C by day"};
  }
  return {};
}

// Spinach bolts in long days: some weeks of them are let pass before harvest, more in a cool
// lengthening spring than after midsummer.
WindowVerdict judge_spinach(const SiteClimate& site, WeekSpan growth) {
  const catalogue::CropLimitCoefficients& k = site.coefficients().limits;
  const bool falling =
      site.at(growth.first + Weeks(1)).daylight_h < site.at(growth.first).daylight_h;
  const double allowed = falling ? k.spinach_weeks_falling : k.spinach_weeks_rising;
  int long_weeks = 0;
  for (Week week = growth.first; week < growth.past; ++week) {
    if (site.at(week).daylight_h > k.spinach_h) ++long_weeks;
  }
  if (long_weeks <= allowed) return {};
  return {OutOfWindow::TooLate, 1.0 * long_weeks, allowed, "weeks of long days"};
}

}  // namespace

double bulbing_hours(const Crop& crop, const SiteClimate& site) {
  if (crop.id != "onion-bulb" && crop.id != "onion-set") return 0.0;
  const catalogue::CropLimitCoefficients& k = site.coefficients().limits;
  const double away = std::abs(site.latitude());
  if (away >= k.long_day_latitude) return k.long_day_h;
  return away >= k.short_day_latitude ? k.middle_day_h : k.equator_day_h;
}

WindowVerdict judge_crop_limits(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const double bulbing = bulbing_hours(crop, site);
  if (bulbing > 0.0) return judge_onion(site, growth.first, bulbing);
  if (crop.id == "spinach") return judge_spinach(site, growth);
  const catalogue::CropLimitCoefficients& k = site.coefficients().limits;
  if (is(crop, "lettuce")) {
    // Leaves that are cut for weeks turn bitter in the heat of any of them.
    const bool at_once = crop.harvest_mode == catalogue::HarvestMode::Single;
    const Weeks cut(at_once ? 1 : usual_harvest_weeks(crop, site.coefficients().winter));
    const double mean =
        std::max(site.at(growth.past).air_c, site.mean_air_c(growth.past, growth.past + cut));
    if (mean > k.lettuce_heat_c) return {OutOfWindow::TooHot, mean, k.lettuce_heat_c, "C"};
  }
  return judge_setting(crop, site, growth.past);
}

}  // namespace aftercrop::climate
