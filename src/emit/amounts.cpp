#include "emit/amounts.h"

#include <fmt/format.h>

#include <cmath>

namespace aftercrop::emit {
namespace {

constexpr double kKgPerOunce = 0.028349523;
constexpr double kKgPerPound = 0.45359237;
constexpr double kCmPerInch = 2.54;
constexpr double kM2PerSquareFoot = 0.09290304;
constexpr double kM2PerHectare = 10000.0;

}  // namespace

std::string two_digits(double value) {
  if (!std::isfinite(value) || std::abs(value) < 1e-6) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double unit = std::pow(10.0, exponent - 1);
  const double rounded = std::round(value / unit) * unit;
  return fmt::format("{:.{}f}", rounded, exponent >= 1 ? 0 : 1 - exponent);
}

std::string mass_text(double kg, garden::UnitSystem units) {
  constexpr double kLeastOunces = 0.1;  // below, seed is sold by the gram everywhere
  if (units == garden::UnitSystem::Us && kg >= kLeastOunces * kKgPerOunce) {
    if (kg < kKgPerPound) return two_digits(kg / kKgPerOunce) + " oz";
    return two_digits(kg / kKgPerPound) + " lb";
  }
  if (kg < 1.0) return two_digits(kg * 1000.0) + " g";
  return two_digits(kg) + " kg";
}

std::string length_text(double cm, garden::UnitSystem units) {
  if (units == garden::UnitSystem::Us) return two_digits(cm / kCmPerInch) + " in";
  return two_digits(cm) + " cm";
}

std::string area_text(double m2, garden::UnitSystem units) {
  if (units == garden::UnitSystem::Us) return two_digits(m2 / kM2PerSquareFoot) + " ft2";
  return two_digits(m2) + " m2";
}

double bed_amount(double kg_per_ha, const garden::Bed& bed, garden::UnitSystem units) {
  const double kg = kg_per_ha * bed.area.value() / kM2PerHectare;
  return units == garden::UnitSystem::Us ? kg / kKgPerOunce : kg * 1000.0;
}

const char* bed_unit(garden::UnitSystem units) {
  return units == garden::UnitSystem::Us ? "oz" : "g";
}

}  // namespace aftercrop::emit
