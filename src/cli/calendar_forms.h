#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/check/check.h"
#include "cli/inputs.h"

namespace aftercrop::cli {

/// Why no calendar of this name can be written ; empty = its ending is known.
[[nodiscard]] std::optional<std::string> why_no_calendar(const std::string& path);

/// What the calendar files of one plan have in common.
struct CalendarFiles {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const garden::Plan& plan;
  const check::Judgement& judgement;
  const ledger::SiteClimates& climates;
  std::string bed;         ///< empty = all
  bool plantings = false;  ///< tables: a row a planting
  bool force = false;
  std::optional<calendar::Date> as_of;  ///< pages and pictures: a line at this day
  std::optional<int> remind_days;       ///< calendar programs ring so many days before
};

/// Writes one file a name. False if one could not be written: the reason is told, the others are
/// written all the same.
[[nodiscard]] bool write_calendars(const CalendarFiles& files,
                                   const std::vector<std::string>& paths);

}  // namespace aftercrop::cli
