#include "emit/amounts.h"

#include "aftercrop/units/us.h"

namespace aftercrop::emit {
namespace {

constexpr double kM2PerHectare = 10000.0;

}  // namespace

double bed_amount(double kg_per_ha, const garden::Bed& bed, garden::UnitSystem units) {
  const double kg = kg_per_ha * bed.area.value() / kM2PerHectare;
  return units == garden::UnitSystem::Us ? kg / units::kKgPerOunce : kg * 1000.0;
}

const char* bed_unit(garden::UnitSystem units) {
  return units == garden::UnitSystem::Us ? "oz" : "g";
}

}  // namespace aftercrop::emit
