#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/planting.h"
#include "aftercrop/garden/want_met.h"
#include "aftercrop/ledger/account.h"
#include "aftercrop/sequencer/certificate.h"

namespace aftercrop::sequencer {

/// When to stop. All limits at once; whichever comes first.
struct Stop {
  double within_seconds = 60.0;
  double gap = 0.01;                  ///< proven gap that is good enough
  int max_rounds = 1000;              ///< pricing rounds: the limit that repeats exactly
  std::function<bool()> interrupted;  ///< asked between rounds; empty = never
  /// Whether memory is nearly used up: then no more paths are collected, and searches stay narrow.
  /// The bound holds all the same. Empty = never.
  std::function<bool()> cramped;
};

/// Told now and then, for a line on a terminal.
struct Progress {
  double seconds = 0.0;
  double value = 0.0;
  std::optional<double> bound;
  std::vector<garden::WantMet> wants;  ///< by the best whole paths so far; empty before there are
  std::string step;                    ///< "prices", "whole paths", "repair"
};

/// The objective by term, money-like, over all beds and weeks. Costs are positive numbers.
struct Value {
  double wants = 0.0;
  double nitrogen = 0.0;
  double leached = 0.0;
  double disease = 0.0;
  double bare_winter = 0.0;
  double warnings = 0.0;
  double work = 0.0;
  double changes = 0.0;  ///< stands that the plan being changed did not have
  [[nodiscard]] double total() const {
    return wants - nitrogen - leached - disease - bare_winter - warnings - work - changes;
  }
};

struct WantResult {
  std::size_t want = 0;
  double met = 0.0;  ///< in the want's unit
  std::string why;   ///< why it is short; empty when met
};

struct Counters {
  int classes = 0;
  int arcs = 0;
  int rounds = 0;
  int columns = 0;
  long labels = 0;
};

struct Outcome {
  garden::Plan plan;  ///< kept stands of the seasons included
  Value value;
  std::optional<double> bound;  ///< only a valid one: no plan on this land is worth more
  Certificate certificate;      ///< of the bound
  double seconds = 0.0;
  std::string stopped_by;  ///< "gap", "time", "rounds", "interrupt", "nothing better found"
  std::vector<WantResult> wants;
  double bought_kg = 0.0;
  double leached_kg = 0.0;
  double fixed_kg = 0.0;
  Counters counters;
  bool trimmed = false;  ///< memory ended the collecting of paths, or kept searches narrow
  [[nodiscard]] std::optional<double> gap() const;
};

/// Fills the seasons. Deterministic for equal input and equal rounds.
[[nodiscard]] Outcome sequence(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                               const ledger::SiteClimates& climates, const Stop& stop,
                               const std::function<void(const Progress&)>& tell = {});

}  // namespace aftercrop::sequencer
