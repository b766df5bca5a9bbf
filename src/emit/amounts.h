#pragma once

#include <string>

#include "aftercrop/garden/garden.h"

// Quantities as they are said: two digits, in the garden's units.
namespace aftercrop::emit {

/// At most two significant digits above 10, never "-0": 0.0123 -> "0.012", 1340 -> "1300".
[[nodiscard]] std::string two_digits(double value);

/// "240 g", "1.3 kg"; "8.5 oz", "2.9 lb"; below a tenth of an ounce grams.
[[nodiscard]] std::string mass_text(double kg, garden::UnitSystem units);
/// "30 cm"; "12 in".
[[nodiscard]] std::string length_text(double cm, garden::UnitSystem units);
/// "3.0 m2"; "32 ft2".
[[nodiscard]] std::string area_text(double m2, garden::UnitSystem units);

/// Grams (or ounces) that a density of nitrogen is for a whole bed.
[[nodiscard]] double bed_amount(double kg_per_ha, const garden::Bed& bed, garden::UnitSystem units);
/// "g" or "oz".
[[nodiscard]] const char* bed_unit(garden::UnitSystem units);

}  // namespace aftercrop::emit
