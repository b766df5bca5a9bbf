#pragma once

#include <optional>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/window.h"

namespace aftercrop::climate {

/// What comes of a crop that is sown or set out in a week.
struct Outlook {
  calendar::Week start;
  bool open = false;                           ///< the week allows it; nothing else is known if not
  std::optional<calendar::Week> harvest;       ///< of a food crop: the first; empty = none comes
  bool early = false;                          ///< of a food crop: only an early cultivar gives it
  std::optional<calendar::Week> useful;        ///< of a cover: a useful stand, within a year
  std::optional<calendar::Week> killed;        ///< of a cover: by frost, within a year
  std::vector<calendar::WeekSpan> open_weeks;  ///< of the 52 weeks from `start`
};

/// `site` must reach a year past the start for `open_weeks`, and as far as a harvest may come.
[[nodiscard]] Outlook outlook_of(const catalogue::Crop& crop, const SiteClimate& site,
                                 calendar::Week start);

/// A season of the year in which a crop may be started, with what comes of it.
struct Season {
  calendar::WeekSpan starts;
  WindowVerdict before;  ///< why not the week before
  WindowVerdict after;   ///< why not the week after
  std::optional<calendar::Week> first_harvest;
  std::optional<calendar::Week> last_harvest;  ///< the first harvest of the last start
  std::vector<calendar::WeekSpan> early;       ///< starts from which only an early cultivar ripens
};

/// The seasons that begin in the 52 weeks from `from`, by date; where every week is open, one of
/// those 52 weeks. `site` must reach two years past `from`, and as far as a harvest may come.
[[nodiscard]] std::vector<Season> seasons_of(const catalogue::Crop& crop, const SiteClimate& site,
                                             calendar::Week from);

}  // namespace aftercrop::climate
