#include "aftercrop/ledger/walk.h"

#include <algorithm>

namespace aftercrop::ledger {
namespace {

using calendar::Week;
using calendar::Weeks;

void rest(const BedLedger& ledger, BedState& state, Week until, const WalkOptions& options) {
  while (state.week < until) {
    const nitrogen::WeekFlows flows = ledger.step(state, nullptr, options.journal, options.events);
    if (options.visitor != nullptr) options.visitor->on_idle_week(state, flows);
  }
}

bool same_row(const garden::Planting& a, const garden::Planting& b) {
  return a.bed == b.bed && a.crop == b.crop && a.from == b.from;
}

}  // namespace

void walk(const BedLedger& ledger, BedState& state,
          const std::vector<const garden::Planting*>& plantings, const WalkOptions& options) {
  for (std::size_t i = 0; i < plantings.size(); ++i) {
    StandSpec spec = spec_of(*plantings[i]);
    if (i + 1 < plantings.size()) {
      const Week next = garden::weeks_of(*plantings[i + 1]).first;
      if (next > spec.weeks.first) spec.weeks.past = std::min(spec.weeks.past, next);
    }
    spec.weeks.first = std::max(spec.weeks.first, state.week);
    if (spec.weeks.first >= spec.weeks.past) continue;
    spec.harvest.first = std::clamp(spec.harvest.first, spec.weeks.first, spec.weeks.past);
    spec.harvest.past = std::clamp(spec.harvest.past, spec.weeks.first, spec.weeks.past);
    rest(ledger, state, spec.weeks.first, options);
    const Stand stand = ledger.make_stand(spec);
    const BedState before = state;
    const StandOutcome outcome = ledger.advance(state, stand, options.journal, options.events);
    if (options.visitor != nullptr) {
      options.visitor->on_stand(before, stand, *plantings[i], outcome);
    }
  }
  rest(ledger, state, options.until, options);
}

std::vector<const garden::Planting*> plantings_of(garden::BedId bed,
                                                  const std::vector<garden::Planting>& history,
                                                  const std::vector<garden::Planting>& plan) {
  std::vector<const garden::Planting*> here;
  for (const garden::Planting& planting : history) {
    if (planting.bed == bed) here.push_back(&planting);
  }
  const std::size_t known = here.size();
  for (const garden::Planting& planting : plan) {
    if (planting.bed != bed) continue;
    const bool twice = std::any_of(here.begin(), here.begin() + static_cast<std::ptrdiff_t>(known),
                                   [&](const auto* row) { return same_row(*row, planting); });
    if (!twice) here.push_back(&planting);
  }
  std::stable_sort(here.begin(), here.end(),
                   [](const auto* a, const auto* b) { return a->from < b->from; });
  return here;
}

}  // namespace aftercrop::ledger
