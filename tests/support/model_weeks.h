#pragma once

#include <array>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/sun.h"

// Blocks of seven days from 1 January of a year without a leap day, 52 of them: the weeks that the
// worked checks are given in. Plans use ISO weeks.
namespace aftercrop::support {

using ModelYear = std::array<climate::WeekWeather, 52>;

inline ModelYear model_weeks(const catalogue::ClimateNormals& normals) {
  const climate::Curves curves(normals);
  ModelYear year;
  calendar::Date day = *calendar::Date::from_ymd(2027, 1, 1);
  for (climate::WeekWeather& week : year) {
    for (int i = 0; i < 7; ++i, day = day.plus_days(1)) {
      const double high = curves.tmax(day);
      const double low = curves.tmin(day);
      week.air_c += (high + low) / 14.0;
      week.rain_mm += curves.rain(day);
      week.et0_mm += climate::reference_evapotranspiration(
          high, low, climate::extraterrestrial_radiation(normals.latitude, climate::year_day(day)));
    }
  }
  return year;
}

/// Smoothed air, two years run in from the yearly mean: the soil before frost is looked at.
inline std::array<double, 52> model_soil(const catalogue::ClimateNormals& normals, double k) {
  const ModelYear year = model_weeks(normals);
  double soil = 0.0;
  for (const climate::WeekWeather& week : year) soil += week.air_c / 52.0;
  std::array<double, 52> result{};
  for (int round = 0; round < 3; ++round) {
    for (std::size_t w = 0; w < 52; ++w) {
      soil += k * (year[w].air_c - soil);
      result[w] = soil;
    }
  }
  return result;
}

}  // namespace aftercrop::support
