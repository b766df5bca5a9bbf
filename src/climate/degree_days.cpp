#include "aftercrop/climate/degree_days.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace aftercrop::climate {
namespace {

double sine_above(double tmax, double tmin, double base) {
  if (tmax <= base) return 0.0;
  const double mean = (tmax + tmin) / 2.0;
  if (tmin >= base) return mean - base;
  const double swing = (tmax - tmin) / 2.0;
  const double theta = std::asin((base - mean) / swing);
  return ((mean - base) * (std::numbers::pi / 2.0 - theta) + swing * std::cos(theta)) /
         std::numbers::pi;
}

double triangle_above(double tmax, double tmin, double base) {
  if (tmax <= base) return 0.0;
  if (tmin >= base) return (tmax + tmin) / 2.0 - base;
  return (tmax - base) * (tmax - base) / (2.0 * (tmax - tmin));
}

template <std::size_t N>
double along(const std::array<double, N>& bases, const std::array<double, N>& per_day,
             double base) {
  std::size_t i = 1;
  while (i + 1 < N && base > bases[i]) ++i;
  const double slope = (per_day[i] - per_day[i - 1]) / (bases[i] - bases[i - 1]);
  return std::max(1.0, per_day[i - 1] + slope * (base - bases[i - 1]));
}

}  // namespace

double sine_degree_days(double tmax_c, double tmin_c, double base_c, double cap_c) {
  return sine_above(tmax_c, tmin_c, base_c) - sine_above(tmax_c, tmin_c, cap_c);
}

double triangle_degree_days(double tmax_c, double tmin_c, double base_c, double cap_c) {
  return triangle_above(tmax_c, tmin_c, base_c) - triangle_above(tmax_c, tmin_c, cap_c);
}

double catalogue_degree_days(double base_c, const catalogue::CatalogueDays& days) {
  return cool_crop(base_c) ? along(days.cool_base_c, days.cool_per_day, base_c)
                           : along(days.warm_base_c, days.warm_per_day, base_c);
}

double carrot_cold_units(double mean_c) {
  if (mean_c <= -1.0 || mean_c >= 16.0) return 0.0;
  if (mean_c <= 6.5) return mean_c + 1.0;
  return 7.5 * (16.0 - mean_c) / 9.5;
}

}  // namespace aftercrop::climate
