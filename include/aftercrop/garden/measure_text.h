#pragma once

#include <string>
#include <string_view>

#include "aftercrop/garden/garden.h"

// Quantities as they are said: two digits, in the garden's units.
namespace aftercrop::garden {

/// At most two significant digits above 10, never "-0": 0.0123 -> "0.012", 1340 -> "1300".
[[nodiscard]] std::string two_digits(double value);

/// "240 g", "1.3 kg"; "8.5 oz", "2.9 lb".
[[nodiscard]] std::string mass_text(double kg, UnitSystem units);

/// The same of seed: below a tenth of an ounce in grams, by which it is sold everywhere.
[[nodiscard]] std::string seed_mass_text(double kg, UnitSystem units);

/// "30 cm"; "12 in".
[[nodiscard]] std::string length_text(double cm, UnitSystem units);

/// The side of a bed: "1.2 m"; "4 ft".
[[nodiscard]] std::string side_text(double metres, UnitSystem units);

/// "3.0 m2"; "32 ft2".
[[nodiscard]] std::string area_text(double m2, UnitSystem units);

/// In whole degrees: "10 C"; "50 F".
[[nodiscard]] std::string temperature_text(double celsius, UnitSystem units);

/// A sentence of the catalogue, whose figures are metric: "3 to 6 m bare gap" stays, or becomes
/// "9.8 to 20 ft bare gap".
[[nodiscard]] std::string prose_text(std::string_view sentence, UnitSystem units);

/// What a density of nitrogen, kg/ha, is for the whole of a bed: "28 g", "1.0 oz".
[[nodiscard]] std::string nitrogen_text(double kg_per_ha, const Bed& bed, UnitSystem units);

}  // namespace aftercrop::garden
