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

struct Growth {
  double base;
  double per_day;
};

// Derived from the five stations' normals; the bold figures of each base and its usual cap
// (0/21, 1.7/24, 4.4/24; 7.2/29, 8.9/30, 10/30, 12.8/32, 15.6/35).
constexpr std::array<Growth, 3> kCool = {{{0.0, 17.1}, {1.7, 16.1}, {4.4, 13.4}}};
constexpr std::array<Growth, 5> kWarm = {
    {{7.2, 14.2}, {8.9, 12.5}, {10.0, 11.4}, {12.8, 8.6}, {15.6, 5.95}}};

template <std::size_t N>
double along(const std::array<Growth, N>& rows, double base) {
  std::size_t i = 1;
  while (i + 1 < N && base > rows[i].base) ++i;
  const double slope = (rows[i].per_day - rows[i - 1].per_day) / (rows[i].base - rows[i - 1].base);
  return std::max(1.0, rows[i - 1].per_day + slope * (base - rows[i - 1].base));
}

}  // namespace

double sine_degree_days(double tmax_c, double tmin_c, double base_c, double cap_c) {
  return sine_above(tmax_c, tmin_c, base_c) - sine_above(tmax_c, tmin_c, cap_c);
}

double triangle_degree_days(double tmax_c, double tmin_c, double base_c, double cap_c) {
  return triangle_above(tmax_c, tmin_c, base_c) - triangle_above(tmax_c, tmin_c, cap_c);
}

double catalogue_degree_days(double base_c) {
  return cool_crop(base_c) ? along(kCool, base_c) : along(kWarm, base_c);
}

double carrot_cold_units(double mean_c) {
  if (mean_c <= -1.0 || mean_c >= 16.0) return 0.0;
  if (mean_c <= 6.5) return mean_c + 1.0;
  return 7.5 * (16.0 - mean_c) / 9.5;
}

}  // namespace aftercrop::climate
