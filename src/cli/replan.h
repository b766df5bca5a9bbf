#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/explain/changes.h"
#include "cli/plan_run.h"

namespace aftercrop::cli {

/// A plan taken up again: what has been done stays, and leaving the rest has a price.
struct Replanning {
  explain::Resumed earlier;
  load::LoadedGarden garden;  ///< from the day on, with what was done as its history
};

/// Takes up `plan` on a day.
[[nodiscard]] Replanning take_up(const load::LoadedGarden& loaded, const garden::Plan& plan,
                                 calendar::Date as_of);

/// Puts what was done back into the finished plan, gives unchanged stands all that their rows said,
/// judges it anew and tells what changed.
[[nodiscard]] std::vector<explain::PlanChange> settle(const Replanning& replanning,
                                                      Planned& planned);

/// "changed    2 of 240 stands to come" and a line for each, the first twenty.
[[nodiscard]] std::string change_rows(const std::vector<explain::PlanChange>& changes,
                                      const Replanning& replanning);

}  // namespace aftercrop::cli
