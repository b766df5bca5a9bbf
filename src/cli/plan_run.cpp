#include "cli/plan_run.h"

#include <algorithm>
#include <string>
#include <tuple>

#include "cli/interrupt.h"
#include "cli/memory.h"
#include "cli/plan_summary.h"
#include "cli/progress.h"

namespace aftercrop::cli {
namespace {

constexpr double kNearlyUsed = 0.75;  // of the memory: what searches need for a moment comes on top

}  // namespace

Planned make_plan(const load::LoadedGarden& loaded, const Limits& limits, const Shared& shared) {
  Planned planned{loaded, ledger::SiteClimates(loaded.garden, loaded.catalogue), {}, {}};
  sequencer::Stop stop;
  stop.within_seconds = limits.within_seconds;
  stop.gap = limits.gap;
  stop.interrupted = interrupted;
  if (limits.memory_bytes > 0.0) {
    stop.cramped = [&limits] { return memory_held() > kNearlyUsed * limits.memory_bytes; };
  }
  catch_interrupt();
  {
    ProgressLine line(shared, planned.loaded.garden, planned.loaded.catalogue);
    planned.outcome =
        sequencer::sequence(loaded.garden, loaded.catalogue, planned.climates, stop,
                            [&](const sequencer::Progress& progress) { line.show(progress); });
  }
  // The file will say so, and it must be judged here as it will be judged there.
  if (planned.outcome.plan.made_by.empty()) {
    planned.outcome.plan.made_by = std::string("aftercrop ") + AFTERCROP_VERSION;
  }
  planned.judgement =
      check::judge(loaded.garden, loaded.catalogue, planned.climates, planned.outcome.plan);
  return planned;
}

void keep_stands(const garden::Plan& earlier, garden::Garden& garden) {
  for (garden::Planting planting : earlier.plantings) {
    const bool known =
        std::any_of(garden.history.begin(), garden.history.end(), [&](const garden::Planting& old) {
          return old.bed == planting.bed && old.crop == planting.crop && old.from == planting.from;
        });
    if (known) continue;
    planting.kept = true;
    garden.history.push_back(std::move(planting));
  }
  std::stable_sort(garden.history.begin(), garden.history.end(),
                   [](const garden::Planting& a, const garden::Planting& b) {
                     return std::tie(a.bed, a.from) < std::tie(b.bed, b.from);
                   });
}

ExitCode verdict(const Planned& planned) {
  for (const WantLine& line : want_lines(planned)) {
    if (line.met < 0.5 * line.amount) return ExitCode::Findings;
  }
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
