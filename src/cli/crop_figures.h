#pragma once

#include <string>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/garden/garden.h"

// Figures of a crop as they are said, in metric or US units.
namespace aftercrop::cli {

/// It is grown to be harvested.
[[nodiscard]] bool gives_food(const catalogue::Crop& crop);

/// "4 kg/m2", "0.82 lb/ft2"; of a cover "5 t/ha dry", "2.2 ton/acre dry"; "-" for the rest.
[[nodiscard]] std::string typical_yield(const catalogue::Crop& crop, garden::UnitSystem units);

/// "4 kg/m2 (2.5 to 7)".
[[nodiscard]] std::string yield_range(const catalogue::Crop& crop, garden::UnitSystem units);

/// "45 cm in the row, 60 cm between rows, 1 cm deep".
[[nodiscard]] std::string spacing_words(const catalogue::Crop& crop, garden::UnitSystem units);

/// "10 C", "50 F".
[[nodiscard]] std::string degrees_text(double celsius, garden::UnitSystem units);

/// "soil 10 C to come up, air 10 to 30 C to grow well".
[[nodiscard]] std::string temperature_words(const catalogue::Crop& crop, garden::UnitSystem units);

/// "no seed in soil above 29 C; in spring from a mean of 10 C": empty where neither is told.
[[nodiscard]] std::string start_limits(const catalogue::Crop& crop, garden::UnitSystem units);

/// "started 03-15 to 05-15, 08-01 to 08-31 in open ground".
[[nodiscard]] std::string local_calendar_words(const catalogue::Crop& crop);

/// "hardly above 24 C at night or 32 C by day, 6 weeks before it is picked"; empty where no heat is
/// told.
[[nodiscard]] std::string setting_words(const catalogue::Crop& crop, garden::UnitSystem units);

/// "75 cm deep", "30 in deep".
[[nodiscard]] std::string depth_words(double cm, garden::UnitSystem units);

/// "2.4 % in residue, 2 % in roots with 12 % of all; leaves 20 kg/ha in 60 cm".
[[nodiscard]] std::string residue_words(const catalogue::NitrogenFigures& nitrogen,
                                        garden::UnitSystem units);

/// "0.5 m2", "5.4 ft2".
[[nodiscard]] std::string area_words(double m2, garden::UnitSystem units);

/// "takes up 200 kg/ha at 60 t/ha; 2 kg leave with a t"; short tons in US units.
[[nodiscard]] std::string uptake_words(const catalogue::NitrogenFigures& nitrogen,
                                       garden::UnitSystem units);

/// "12 g/m2", "3.9 oz/100 ft2".
[[nodiscard]] std::string seed_rate(double g_per_m2, garden::UnitSystem units);

/// "5 t dry matter/ha (3 to 8)".
[[nodiscard]] std::string growth_range(const catalogue::CoverFigures& cover,
                                       garden::UnitSystem units);

}  // namespace aftercrop::cli
