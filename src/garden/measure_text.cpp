#include "aftercrop/garden/measure_text.h"

#include <fmt/format.h>

#include <cmath>

#include "aftercrop/units/us.h"

namespace aftercrop::garden {
namespace {

using units::kKgPerOunce;
using units::kKgPerPound;

constexpr double kLeastOunces = 0.1;

}  // namespace

std::string two_digits(double value) {
  if (!std::isfinite(value) || std::abs(value) < 1e-6) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double unit = std::pow(10.0, exponent - 1);
  const double rounded = std::round(value / unit) * unit;
  return fmt::format("{:.{}f}", rounded, exponent >= 1 ? 0 : 1 - exponent);
}

std::string mass_text(double kg, UnitSystem units) {
  const double amount = std::abs(kg);  // what is missing is told in the unit of what is there
  if (units == UnitSystem::Us) {
    if (amount < kKgPerPound) return two_digits(kg / kKgPerOunce) + " oz";
    return two_digits(kg / kKgPerPound) + " lb";
  }
  if (amount < 1.0) return two_digits(kg * 1000.0) + " g";
  return two_digits(kg) + " kg";
}

std::string seed_mass_text(double kg, UnitSystem units) {
  return mass_text(kg, kg < kLeastOunces * kKgPerOunce ? UnitSystem::Metric : units);
}

std::string length_text(double cm, UnitSystem units) {
  if (units == UnitSystem::Us) return two_digits(cm / units::kCmPerInch) + " in";
  return two_digits(cm) + " cm";
}

std::string side_text(double metres, UnitSystem units) {
  if (units == UnitSystem::Us) return fmt::format("{:.2g} ft", metres / units::kMPerFoot);
  return fmt::format("{:.2g} m", metres);
}

std::string area_text(double m2, UnitSystem units) {
  if (units == UnitSystem::Us) return two_digits(m2 / units::kM2PerSquareFoot) + " ft2";
  return two_digits(m2) + " m2";
}

std::string temperature_text(double celsius, UnitSystem units) {
  // + 0.0: never "-0"
  if (units == UnitSystem::Us) {
    return fmt::format("{:g} F", std::round(units::fahrenheit(celsius)) + 0.0);
  }
  return fmt::format("{:g} C", std::round(celsius) + 0.0);
}

std::string nitrogen_text(double kg_per_ha, const Bed& bed, UnitSystem units) {
  return mass_text((units::KgNPerHa(kg_per_ha) * bed.area).value(), units);
}

}  // namespace aftercrop::garden
