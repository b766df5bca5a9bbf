#pragma once

#include <vector>

#include "sequencer/classes.h"
#include "sequencer/rounding.h"

namespace aftercrop::sequencer {

/// A bed's future as found: its choices in order, and what it costs by term.
struct Path {
  std::vector<int> choices;
  Value costs;          ///< wants = 0
  double priced = 0.0;  ///< costs and supply at the prices it was found with
  Supply supply;        ///< in order of rows
  std::vector<std::pair<int, double>> hours;
  friend bool operator==(const Path& a, const Path& b) { return a.choices == b.choices; }
};

/// Prices that a search follows.
struct Prices {
  std::vector<double> supply;  ///< per m2, one a supply row
  std::vector<double> cap;     ///< m2 that still earn the price in one stand; empty = no limit
  std::vector<double> work;    ///< per hour, one a week of the seasons; empty = free
  /// Per m2 that a rounding counts.
  std::vector<std::pair<Rounding, double>> roundings;
};

/// What a stand earns at these prices, whatever the bed's state costs it.
[[nodiscard]] double profit_of(const Choice& choice, const Prices& prices);
/// Profit of every arc before the bed's state is looked at: never below the true one.
[[nodiscard]] std::vector<double> arc_profits(const BedClass& beds, const Prices& prices);

inline constexpr double kNothingKnown = -1e300;

/// How far a search goes.
struct Effort {
  int width = 16;                ///< labels kept a week
  std::size_t paths = 4;         ///< best ones handed back
  int steps = 10;                ///< subgradient steps of the completion's multipliers
  bool varied = true;            ///< not too many labels with the same two last stands
  double known = kNothingKnown;  ///< what some path is known to earn at these prices
};

struct Found {
  std::vector<Path> paths;  ///< best first
  double bound = 0.0;       ///< no path of the class earns more at these prices
  long labels = 0;          ///< made on the way
};

class Completion;

/// Best paths found by labels over the true bed state. Every path obeys the required rules; costs
/// are exact. Labels that had to be dropped for room leave their bound behind. `profits` = of the
/// arcs, as `arc_profits` gives them.
[[nodiscard]] Found search_paths(const BedClass& beds, const Objective& objective,
                                 const std::vector<double>& profits, Completion& completion,
                                 const Effort& effort);

}  // namespace aftercrop::sequencer
