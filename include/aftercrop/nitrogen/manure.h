#pragma once

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/crop.h"

namespace aftercrop::nitrogen {

/// Days that must lie between raw manure and a crop's harvest: more where what is eaten touches
/// the soil or its splash. Source: 7 CFR 205.203(c)(1).
[[nodiscard]] inline int manure_days(const catalogue::Crop& crop,
                                     const catalogue::NitrogenCoefficients& k) {
  return static_cast<int>(crop.touches_soil ? k.manure_days_touching : k.manure_days_clear);
}

/// The first day on which a crop may be picked from a bed that got raw manure on `spread`.
[[nodiscard]] inline calendar::Date first_harvest_after_manure(
    const catalogue::Crop& crop, calendar::Date spread, const catalogue::NitrogenCoefficients& k) {
  return spread.plus_days(manure_days(crop, k));
}

}  // namespace aftercrop::nitrogen
