#pragma once

#include <optional>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::climate {

/// What comes of a crop that is sown or set out in a week.
struct Outlook {
  calendar::Week start;
  bool open = false;                           ///< the week allows it; nothing else is known if not
  std::optional<calendar::Week> harvest;       ///< of a food crop: the first; empty = none comes
  std::optional<calendar::Week> useful;        ///< of a cover: a useful stand, within a year
  std::optional<calendar::Week> killed;        ///< of a cover: by frost, within a year
  std::vector<calendar::WeekSpan> open_weeks;  ///< of the 52 weeks from `start`
};

/// `site` must reach a year past the start for `open_weeks`, and as far as a harvest may come.
[[nodiscard]] Outlook outlook_of(const catalogue::Crop& crop, const SiteClimate& site,
                                 calendar::Week start);

}  // namespace aftercrop::climate
