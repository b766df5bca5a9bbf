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
/// range) that needs `need` degree-days. Days under ten hours count half for cool crops; a harvest
/// in falling light takes at least the catalogue's days and up to 14 more as days shorten from
/// 12.5 to 10.5 hours; one in rising light at least 0.85 of them. Empty beyond `limit` days.
/// Source: autumn factors of Virginia Cooperative Extension 426-331 and UC Master Gardeners of
/// Sonoma County; Coleman 2009 for the winter rest; floors are common practice.
[[nodiscard]] std::optional<Stretch> stretch(const SiteClimate& site, calendar::Date start,
                                             double need, double maturity_days, ThermalTime time,
                                             int limit = 300);

/// Days in the bed that the catalogue counts: the middle of its range. A crop counted from
/// transplanting but sown in place takes 14 days more, one counted from sowing but set out as a
/// plant 14 fewer (common practice).
[[nodiscard]] double days_in_bed(const catalogue::Crop& crop);

/// A crop whose catalogue days run over a winter or a year: garlic, sprouting broccoli, asparagus.
[[nodiscard]] bool counted_over_winter(const catalogue::Crop& crop);

}  // namespace aftercrop::climate
