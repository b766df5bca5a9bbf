#include "aftercrop/climate/sun.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace aftercrop::climate {
namespace {

constexpr double kPi = std::numbers::pi;

double radians(double degrees) { return degrees * kPi / 180.0; }

double declination(double j) { return 0.409 * std::sin(2.0 * kPi * j / 365.0 - 1.39); }

double sunset_angle(double phi, double delta) {
  return std::acos(std::clamp(-std::tan(phi) * std::tan(delta), -1.0, 1.0));
}

}  // namespace

double extraterrestrial_radiation(double latitude_deg, double j) {
  const double phi = radians(latitude_deg);
  const double delta = declination(j);
  const double ws = sunset_angle(phi, delta);
  const double distance = 1.0 + 0.033 * std::cos(2.0 * kPi * j / 365.0);
  const double height =
      ws * std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::sin(ws);
  return std::max(0.0, 24.0 * 60.0 / kPi * 0.0820 * distance * height);
}

double geometric_day_length(double latitude_deg, double j) {
  return 24.0 / kPi * sunset_angle(radians(latitude_deg), declination(j));
}

double day_length(double latitude_deg, double j) {
  const double phi = radians(latitude_deg);
  const double delta = declination(j);
  const double cosine = (std::sin(radians(-0.833)) - std::sin(phi) * std::sin(delta)) /
                        (std::cos(phi) * std::cos(delta));
  return 24.0 / kPi * std::acos(std::clamp(cosine, -1.0, 1.0));
}

double reference_evapotranspiration(double tmax_c, double tmin_c, double radiation_mj) {
  if (tmax_c < tmin_c) return 0.0;
  const double mean = (tmax_c + tmin_c) / 2.0;
  return std::max(0.0, 0.0023 * (mean + 17.8) * std::sqrt(tmax_c - tmin_c) * 0.408 * radiation_mj);
}

}  // namespace aftercrop::climate
