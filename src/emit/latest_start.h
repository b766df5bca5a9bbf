#pragma once

#include <optional>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/garden/planting.h"

namespace aftercrop::emit {

/// Last day on which a planting can still start: in every week from the planned one up to it the
/// site lets the crop start, and its shortest harvest (a cover's useful stand) is over before
/// `next`, the following planting of the bed. Empty where already the planned week fails, or where
/// no limit is met within 30 weeks.
[[nodiscard]] std::optional<calendar::Date> latest_start(const garden::Planting& planting,
                                                         const catalogue::Crop& crop,
                                                         const climate::SiteClimate& site,
                                                         const std::optional<calendar::Date>& next);

}  // namespace aftercrop::emit
