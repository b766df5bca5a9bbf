#pragma once

#include <optional>
#include <string>

#include "aftercrop/check/check.h"
#include "aftercrop/load/load.h"
#include "aftercrop/sequencer/sequence.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// What planning takes besides the garden.
struct Limits {
  double within_seconds = 60.0;
  double gap = 0.01;
  double memory_bytes = 0.0;  ///< 0 = no limit
};

/// A garden with its plan and the plan's judgement. Not moved once made: accounts point into it.
struct Planned {
  const load::LoadedGarden& loaded;
  ledger::SiteClimates climates;
  sequencer::Outcome outcome;
  check::Judgement judgement;
};

/// Plans and judges. Ctrl-C ends the search early, and the best plan so far is taken.
[[nodiscard]] Planned make_plan(const load::LoadedGarden& loaded, const Limits& limits,
                                const Shared& shared);

/// Takes the stands of an earlier plan as decided.
void keep_stands(const garden::Plan& earlier, garden::Garden& garden);

/// Fine, or Findings where less than half of a want (a line of the garden file) is met.
[[nodiscard]] ExitCode verdict(const Planned& planned);

}  // namespace aftercrop::cli
