#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::emit {

enum class TaskKind {
  Order,
  SoilTest,
  SowUnderCover,
  Prepare,
  Sow,
  PlantOut,
  Thin,
  Support,
  Watch,
  Feed,
  HarvestStart,
  HarvestEnd,
  Cut,
  ChopAndDigIn,
  WaitUntil,
  Cover,
  Uncover,
  Clear,
  FrostKills,
};
inline constexpr std::size_t kTaskKinds = 19;
/// "sow-under-cover": a word that programs may rely on.
[[nodiscard]] std::string_view name(TaskKind kind);
/// "Sow under cover": for people.
[[nodiscard]] std::string_view label(TaskKind kind);

/// One thing to do in one bed on one day.
struct Task {
  calendar::Date date;
  calendar::Date latest;   ///< last safe day, never before `date`
  std::string latest_why;  ///< what ends it: "the weeks after are too hot for it"
  TaskKind kind = TaskKind::Sow;
  garden::BedId bed;
  catalogue::CropId crop;  ///< unknown = about the bed alone
  std::string title;       ///< "Sow faba cover"; names as they were typed, not made safe
  std::string detail;      ///< spacing, amounts, how; may be empty
  std::string caution;     ///< where advice could hurt; may be empty
  std::string uid;         ///< the same for the same task of a later run
};

/// Everything to do from the start of the seasons on, sorted by date, then bed. Every planting of
/// the plan that ends after that day has its end; every one that starts after it its start too.
/// `accounts` holds the beds' accounts; a bed without one has no feeding.
[[nodiscard]] std::vector<Task> tasks(const garden::Garden& garden,
                                      const catalogue::Catalogue& catalogue,
                                      const garden::Plan& plan,
                                      const std::vector<ledger::BedAccount>& accounts,
                                      const ledger::SiteClimates& climates);

}  // namespace aftercrop::emit
