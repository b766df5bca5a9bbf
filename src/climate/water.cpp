#include "aftercrop/climate/water.h"

#include <algorithm>

namespace aftercrop::climate {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr int kSpinUpYears = 2;
constexpr int kYearWeeks = 52;  // of spin-up only: seasons are not counted by it

}  // namespace

double field_capacity(const catalogue::Soil& soil, double organic_matter_pct,
                      const catalogue::WaterCoefficients& k) {
  return std::max(0.02,
                  soil.field_capacity + k.water_per_om * (organic_matter_pct - k.texture_om_pct));
}

Profile profile_of(const catalogue::Soil& soil, const WaterOptions& options,
                   const catalogue::WaterCoefficients& k) {
  const double share = field_capacity(soil, options.organic_matter_pct, k) - soil.wilting_point;
  Profile profile;
  profile.available_mm = 1000.0 * std::max(0.02, share) * options.profile_m;
  profile.depletion = k.depletion;
  profile.watered = options.watered;
  profile.snow_below_c = k.snow_below_c;
  profile.rain_above_c = k.rain_above_c;
  profile.melt_mm_week = 7.0 * k.melt_mm;
  return profile;
}

WaterWeek advance(Water& water, const WeekWeather& weather, double kc, const Profile& profile) {
  const double snowing = std::clamp(
      (profile.rain_above_c - weather.air_c) / (profile.rain_above_c - profile.snow_below_c), 0.0,
      1.0);
  water.snow_mm += weather.rain_mm * snowing;
  const double melt = std::min(water.snow_mm, profile.melt_mm_week * std::max(0.0, weather.air_c));
  water.snow_mm -= melt;
  WaterWeek week;
  week.liquid_mm = weather.rain_mm * (1.0 - snowing) + melt;
  const double limit = (1.0 - profile.depletion) * profile.available_mm;
  const double stress = water.store_mm >= limit ? 1.0 : water.store_mm / limit;
  week.evaporated_mm = std::min(kc * stress * weather.et0_mm, water.store_mm + week.liquid_mm);
  water.store_mm += week.liquid_mm - week.evaporated_mm;
  if (profile.watered && water.store_mm < limit) {
    week.irrigation_mm = limit - water.store_mm;
    week.liquid_mm += week.irrigation_mm;
    water.store_mm = limit;
  }
  week.drained_mm = std::max(0.0, water.store_mm - profile.available_mm);
  water.store_mm -= week.drained_mm;
  return week;
}

double evaporation_factor(Ground ground, const WeekWeather& weather,
                          const catalogue::WaterCoefficients& k) {
  const double bare = weather.rain_mm > weather.et0_mm ? k.bare_wet : k.bare_dry;
  if (ground == Ground::Bare) return bare;
  return ground == Ground::Mulch ? k.under_mulch * bare : k.under_plants.value;
}

Drainage::Drainage(const SiteClimate& site, const catalogue::Soil& soil,
                   const WaterOptions& options)
    : covered_(site.covered()) {
  const catalogue::WaterCoefficients& k = site.coefficients().water;
  const int year = std::min(kYearWeeks, covered_.length().count());
  for (std::size_t g = 0; g < kGrounds; ++g) {
    const auto ground = static_cast<Ground>(g);
    Profile profile = profile_of(soil, options, k);
    profile.watered = options.watered && ground == Ground::Crop;
    Water water{profile.available_mm, 0.0};
    const auto step = [&](Week week) {
      const WeekWeather& weather = site.at(week);
      return advance(water, weather, evaporation_factor(ground, weather, k), profile).drained_mm;
    };
    for (int i = 0; i < kSpinUpYears * year; ++i) step(covered_.first + Weeks(i % year));
    for (Week week = covered_.first; week < covered_.past; ++week) mm_[g].push_back(step(week));
  }
}

double Drainage::mm(Week week, Ground ground) const {
  const std::vector<double>& table = mm_[static_cast<std::size_t>(ground)];
  const int last = covered_.length().count() - 1;
  return table[static_cast<std::size_t>(std::clamp((week - covered_.first).count(), 0, last))];
}

}  // namespace aftercrop::climate
