#pragma once

#include <string>

#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/mass_text.h"

// Quantities as they are said: two digits, in the garden's units.
namespace aftercrop::emit {

using garden::mass_text;
using garden::two_digits;

/// "30 cm"; "12 in".
[[nodiscard]] std::string length_text(double cm, garden::UnitSystem units);
/// "3.0 m2"; "32 ft2".
[[nodiscard]] std::string area_text(double m2, garden::UnitSystem units);

/// Grams (or ounces) that a density of nitrogen is for a whole bed.
[[nodiscard]] double bed_amount(double kg_per_ha, const garden::Bed& bed, garden::UnitSystem units);
/// "g" or "oz".
[[nodiscard]] const char* bed_unit(garden::UnitSystem units);

}  // namespace aftercrop::emit
