#pragma once

#include <optional>

#include "aftercrop/calendar/date.h"
#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::climate {

/// How long a crop takes from one start.
struct Stretch {
  int thermal_days = 0;     ///< until the thermal time is there
  double daylight_h = 0.0;  ///< on the last of them
  int days = 0;             ///< with the autumn stretch and the floors
};

/// Days from `start` to first harvest of a crop of `maturity_days` (catalogue days, middle of the
/// range) that needs `need` degree-days. Short days count less for cool crops; a harvest in falling
/// light takes at least the catalogue's days, and more as days shorten; one in rising light at
/// least a share of them. Empty beyond `limit` days.
[[nodiscard]] std::optional<Stretch> stretch(const SiteClimate& site, calendar::Date start,
                                             double need, double maturity_days, ThermalTime time,
                                             int limit = 300);

/// Days in the bed that the catalogue counts: the middle of its range. A crop counted from
/// transplanting but sown in place takes longer by what a plant is ahead, one counted from sowing
/// but set out as a plant is quicker by that.
[[nodiscard]] double days_in_bed(const catalogue::Crop& crop,
                                 const catalogue::MaturityCoefficients& coefficients);

/// A crop whose catalogue days run over a winter or a year: garlic, sprouting broccoli, asparagus.
[[nodiscard]] bool counted_over_winter(const catalogue::Crop& crop,
                                       const catalogue::MaturityCoefficients& coefficients);

}  // namespace aftercrop::climate
