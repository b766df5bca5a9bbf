#pragma once

#include <vector>

#include "sequencer/classes.h"

namespace aftercrop::sequencer {

/// A bed's future as found: its choices in order, and what it costs by term.
struct Path {
  std::vector<int> choices;
  Value costs;                 ///< wants = 0
  double priced = 0.0;         ///< costs and supply at the prices it was found with
  std::vector<double> supply;  ///< square metres, one a supply row
  std::vector<std::pair<int, double>> hours;
  friend bool operator==(const Path& a, const Path& b) { return a.choices == b.choices; }
};

/// Prices that a search follows.
struct Prices {
  std::vector<double> supply;  ///< per m2, one a supply row
  std::vector<double> cap;     ///< m2 that still earn the price in one stand; empty = no limit
  std::vector<double> work;    ///< per hour, one a week of the seasons; empty = free
};

/// Profit of every arc before the bed's state is looked at: never below the true one.
[[nodiscard]] std::vector<double> arc_profits(const BedClass& beds, const Prices& prices);

/// Best paths found by labels over the true bed state, at most `width` of them kept a week. Every
/// path obeys the required rules; costs are exact. Best first, at most `paths`.
[[nodiscard]] std::vector<Path> search_paths(const BedClass& beds, const Objective& objective,
                                             const Prices& prices, int width, std::size_t paths,
                                             long* labels);

}  // namespace aftercrop::sequencer
