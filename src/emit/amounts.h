#pragma once

#include <string>

#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/measure_text.h"

// Quantities as they are said, and nitrogen of whole beds.
namespace aftercrop::emit {

using garden::area_text;
using garden::length_text;
using garden::mass_text;
using garden::seed_mass_text;
using garden::two_digits;

/// Grams (or ounces) that a density of nitrogen is for a whole bed.
[[nodiscard]] double bed_amount(double kg_per_ha, const garden::Bed& bed, garden::UnitSystem units);
/// "g" or "oz".
[[nodiscard]] const char* bed_unit(garden::UnitSystem units);

}  // namespace aftercrop::emit
