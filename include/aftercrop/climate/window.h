#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::climate {

enum class OutOfWindow {
  None,
  TooEarly,
  SoilTooCold,
  TooCold,
  TooHot,
  TooLate,
  NoColdSpell,
  DayTooShort,
  CoverWindow,
  LocalCalendar
};

/// What keeps a crop from being started in a week.
struct WindowVerdict {
  OutOfWindow why = OutOfWindow::None;
  double computed = 0.0;
  double limit = 0.0;
  std::string_view unit;
  [[nodiscard]] bool open() const { return why == OutOfWindow::None; }
};

/// May `crop` be sown or set out in the bed in the week `start`? Earliest date by hardiness class,
/// frost risk and soil warmth (cash crops); weeks from the median frosts (covers); temperature
/// limits everywhere. In open ground the dates of a local calendar take the place of all that;
/// under shelter they are open as well. Source: climate reference sections 2.5, 4.6, 7.
[[nodiscard]] WindowVerdict judge_start(const catalogue::Crop& crop, const SiteClimate& site,
                                        calendar::Week start);

/// How a crop comes to its first harvest from a start.
struct Ripening {
  calendar::Weeks weeks;  ///< in the bed, from the start to the first harvest week
  bool early = false;     ///< only an early cultivar does it, of the catalogue's least days
};

/// Empty where the crop does not mature here from that start. Counted with the middle of the
/// catalogue's days; where that is slow or ends in cold or frost and the low end of the range does
/// not, with the low end: a grower takes an early cultivar there (our choice).
/// Source: climate reference section 4.4 and 4.5.
[[nodiscard]] std::optional<Ripening> ripening(const catalogue::Crop& crop, const SiteClimate& site,
                                               calendar::Week start);

/// The weeks of it alone.
[[nodiscard]] std::optional<calendar::Weeks> weeks_to_harvest(const catalogue::Crop& crop,
                                                              const SiteClimate& site,
                                                              calendar::Week start);

/// Weeks of picking that make the usual harvest: the middle of the catalogue's where picking is
/// over in a few weeks, else its least.
[[nodiscard]] int usual_harvest_weeks(const catalogue::Crop& crop,
                                      const catalogue::WinterCoefficients& k);

/// Week in which the crop's harvest must be over: the week before the chance that its killing
/// minimum has come reaches `risk`; empty where frost does not end it within 60 weeks.
[[nodiscard]] std::optional<calendar::Week> harvest_deadline(const catalogue::Crop& crop,
                                                             const SiteClimate& site,
                                                             calendar::Week harvest_from,
                                                             double risk = 0.5);

/// Weeks from sowing to the first flower of a cover, and its thermal progress.
struct CoverProgress {
  double stand = 0.0;  ///< growth since sowing over growth needed for a useful stand (>= 1: useful)
  double flower = 0.0;  ///< thermal time over thermal time to first flower
};
[[nodiscard]] CoverProgress cover_progress(const catalogue::Crop& crop, const SiteClimate& site,
                                           calendar::WeekSpan stand);

/// First week of `stand` in which a winter-killed cover is dead: weekly chance that its killing
/// minimum has come leaves it surely dead; empty if it lives.
[[nodiscard]] std::optional<calendar::Week> killed_by_frost(const catalogue::Crop& crop,
                                                            const SiteClimate& site,
                                                            calendar::WeekSpan stand);

}  // namespace aftercrop::climate
