#include "aftercrop/garden/mass_text.h"

#include <fmt/format.h>

#include <cmath>

namespace aftercrop::garden {
namespace {

constexpr double kKgPerOunce = 0.028349523;
constexpr double kKgPerPound = 0.45359237;
constexpr double kLeastOunces = 0.1;  // below, seed is sold by the gram everywhere

}  // namespace

std::string two_digits(double value) {
  if (!std::isfinite(value) || std::abs(value) < 1e-6) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double unit = std::pow(10.0, exponent - 1);
  const double rounded = std::round(value / unit) * unit;
  return fmt::format("{:.{}f}", rounded, exponent >= 1 ? 0 : 1 - exponent);
}

std::string mass_text(double kg, UnitSystem units) {
  if (units == UnitSystem::Us && kg >= kLeastOunces * kKgPerOunce) {
    if (kg < kKgPerPound) return two_digits(kg / kKgPerOunce) + " oz";
    return two_digits(kg / kKgPerPound) + " lb";
  }
  if (kg < 1.0) return two_digits(kg * 1000.0) + " g";
  return two_digits(kg) + " kg";
}

std::string nitrogen_text(double kg_per_ha, const Bed& bed, UnitSystem units) {
  return mass_text((units::KgNPerHa(kg_per_ha) * bed.area).value(), units);
}

}  // namespace aftercrop::garden
