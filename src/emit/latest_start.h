#pragma once

#include <optional>
#include <string>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/garden/planting.h"

namespace aftercrop::emit {

/// The following planting of the same bed.
struct NextStand {
  calendar::Date from;
  std::string name;  ///< of its crop
};

/// The last day on which something can still be done, and what ends it: a phrase.
struct LatestDay {
  calendar::Date day;
  std::string why;
};

/// Last day on which a planting can still start: in every week from the planned one up to it the
/// site lets the crop start, and its shortest harvest (a cover's useful stand) is over before
/// `next`. The planned day itself where there is no room at all. Looks 30 weeks ahead.
[[nodiscard]] LatestDay latest_start(const garden::Planting& planting, const catalogue::Crop& crop,
                                     const climate::SiteClimate& site,
                                     const std::optional<NextStand>& next);

}  // namespace aftercrop::emit
