#pragma once

#include <memory>
#include <vector>

#include "aftercrop/graph/bed_time_graph.h"
#include "aftercrop/ledger/account.h"
#include "sequencer/objective.h"

namespace aftercrop::sequencer {

/// A stand as the search handles it: worked out for one class of beds.
struct Choice {
  ledger::Stand stand;
  Supply supply;       ///< square metres of one bed
  double worth = 0.0;  ///< that shares are taken of
  Value fixed;         ///< what it costs whatever the bed's state
  std::vector<std::pair<int, double>> hours;
  const garden::Planting* decided = nullptr;  ///< a kept stand of the seasons
  bool earlier = false;                       ///< the plan that is being changed has it
};

/// What can stand on beds that are alike but for their soil and past: in size, shelter, the
/// diseases that are followed, what will be spread on them. Beds with stands decided share it with
/// no other.
struct BedKind {
  std::vector<Choice> choices;
  std::unique_ptr<graph::BedTimeGraph> graph;
};

/// Beds that are alike in everything the future depends on: their kind, and their state at the
/// start.
struct BedClass {
  std::vector<garden::BedId> beds;
  double area_m2 = 0.0;
  std::unique_ptr<ledger::BedLedger> ledger;
  ledger::BedState start;
  std::shared_ptr<const BedKind> kind;
  bool clubroot_seen = false;

  [[nodiscard]] const std::vector<Choice>& choices() const { return kind->choices; }
  [[nodiscard]] const graph::BedTimeGraph& graph() const { return *kind->graph; }
};

[[nodiscard]] std::vector<BedClass> bed_classes(const garden::Garden& garden,
                                                const catalogue::Catalogue& catalogue,
                                                const ledger::SiteClimates& climates,
                                                const Objective& objective);

}  // namespace aftercrop::sequencer
