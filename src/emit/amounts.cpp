#include "emit/amounts.h"

#include <fmt/format.h>

namespace aftercrop::emit {
namespace {

constexpr double kKgPerOunce = 0.028349523;
constexpr double kCmPerInch = 2.54;
constexpr double kM2PerSquareFoot = 0.09290304;
constexpr double kM2PerHectare = 10000.0;

}  // namespace

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
