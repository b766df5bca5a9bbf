#pragma once

#include <vector>

#include "aftercrop/garden/planting.h"
#include "aftercrop/ledger/bed_ledger.h"

namespace aftercrop::ledger {

/// What a walk along a bed's plantings tells on its way.
class Visitor {
 public:
  virtual ~Visitor() = default;
  virtual void on_stand(const BedState& before, const Stand& stand,
                        const garden::Planting& planting, const StandOutcome& outcome) = 0;
  /// One idle week; `after` is the bed at its end.
  virtual void on_idle_week(const BedState& after, const nitrogen::WeekFlows& flows) = 0;
};

struct WalkOptions {
  calendar::Week until;  ///< walk at least so far; stands run to their end
  nitrogen::Journal* journal = nullptr;
  std::vector<LoadEvent>* events = nullptr;
  Visitor* visitor = nullptr;
};

/// Folds a bed from `state` through plantings in order of their start. Weeks that two plantings
/// share belong to the later one; a planting wholly inside an earlier one is passed over.
void walk(const BedLedger& ledger, BedState& state,
          const std::vector<const garden::Planting*>& plantings, const WalkOptions& options);

/// The plantings of one bed from several lists, in order of start; equal rows count once.
[[nodiscard]] std::vector<const garden::Planting*> plantings_of(
    garden::BedId bed, const std::vector<garden::Planting>& history,
    const std::vector<garden::Planting>& plan);

}  // namespace aftercrop::ledger
