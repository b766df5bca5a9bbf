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

// Bulb onions: the type that suits the latitude, and the day length that makes it bulb. Source:
// University of California IPM, Onions: time to plant; Oregon State and Michigan State extension;
// the middle of the published ranges.
constexpr double kLongDayLatitude = 37.0;
constexpr double kShortDayLatitude = 30.0;
constexpr double kBulbingMargin = 0.25;  // hours by which the longest day must pass the threshold
constexpr int kLeafWeeksAfter = 4;  // weeks that leaves may still be made in long days (our choice)

// Spinach bolts in long days: over 85 % at 16 h, none at 10 h (Chun et al. 2001, HortScience
// 36:889), critical 13-15 h by cultivar; the quickest flowers came 43 days after sowing (Gonzalez
// et al. 2004, Agric. Tec. 64), in cool springs later. Weeks of days over 14 h that are let pass
// before harvest: eight in a cool lengthening spring, three after midsummer (our choice).
constexpr double kSpinachHours = 14.0;
constexpr int kSpinachWeeksRising = 8;
constexpr int kSpinachWeeksFalling = 3;

// Fruit of tomato and pepper does not set in nights above 24 C (from memory).
constexpr double kFruitSetNight = 24.0;
constexpr int kFruitingWeeks = 4;  // flower to first fruit

// Lettuce heads are refused where the harvest week's mean is above 24 C (extension, from memory).
constexpr double kLettuceHeat = 24.0;

bool is(const Crop& crop, std::string_view start) {
  return crop.id.compare(0, start.size(), start) == 0;
}

WindowVerdict judge_onion(const SiteClimate& site, Week start, double threshold) {
  const double longest = site.longest_day_h();
  if (longest < threshold + kBulbingMargin) {
    return {OutOfWindow::DayTooShort, longest, threshold + kBulbingMargin, "h"};
  }
  // Past the date at which bulbing begins there is no time left for leaves.
  const bool falling = site.at(start + Weeks(1)).daylight_h < site.at(start).daylight_h;
  const double before = site.at(start - Weeks(kLeafWeeksAfter)).daylight_h;
  if (falling ? site.at(start).daylight_h < threshold : before < threshold) return {};
  return {OutOfWindow::TooLate, before, threshold, "h"};
}

WindowVerdict judge_spinach(const SiteClimate& site, WeekSpan growth) {
  const bool falling =
      site.at(growth.first + Weeks(1)).daylight_h < site.at(growth.first).daylight_h;
  const int allowed = falling ? kSpinachWeeksFalling : kSpinachWeeksRising;
  int long_weeks = 0;
  for (Week week = growth.first; week < growth.past; ++week) {
    if (site.at(week).daylight_h > kSpinachHours) ++long_weeks;
  }
  if (long_weeks <= allowed) return {};
  return {OutOfWindow::TooLate, 1.0 * long_weeks, 1.0 * allowed, "weeks of days over 14 h"};
}

}  // namespace

double bulbing_hours(const Crop& crop, double latitude) {
  if (crop.id != "onion-bulb" && crop.id != "onion-set") return 0.0;
  const double away = std::abs(latitude);
  if (away >= kLongDayLatitude) return 14.0;
  return away >= kShortDayLatitude ? 13.0 : 12.0;
}

WindowVerdict judge_crop_limits(const Crop& crop, const SiteClimate& site, WeekSpan growth) {
  const double bulbing = bulbing_hours(crop, site.latitude());
  if (bulbing > 0.0) return judge_onion(site, growth.first, bulbing);
  if (crop.id == "spinach") return judge_spinach(site, growth);
  const WeekWeather& harvest = site.at(growth.past);
  if (is(crop, "lettuce") && harvest.air_c > kLettuceHeat) {
    return {OutOfWindow::TooHot, harvest.air_c, kLettuceHeat, "C"};
  }
  const double night = site.at(growth.past - Weeks(kFruitingWeeks)).tmin_c;
  if ((is(crop, "tomato") || is(crop, "pepper")) && night > kFruitSetNight) {
    return {OutOfWindow::TooHot, night, kFruitSetNight, "C at night"};
  }
  return {};
}

}  // namespace aftercrop::climate
