#pragma once

#include <functional>
#include <vector>

#include "sequencer/pricing.h"

namespace aftercrop::sequencer {

/// What paths deliver, take and cost together.
struct Totals {
  std::vector<double> delivered_m2;  ///< one a supply row
  std::vector<double> hours;         ///< one a week of the seasons
  Value costs;                       ///< without wants and work

  explicit Totals(const Objective& objective);
  void add(const Path& path, double times = 1.0);
  /// Worth of what is delivered less all costs.
  [[nodiscard]] Value value(const Objective& objective) const;
  /// What one more square metre of each supply row is worth, and how much of it.
  [[nodiscard]] Prices marginal(const Objective& objective) const;
};

/// A path for every bed, with its exact value. One entry a bed of the garden.
struct Assignment {
  std::vector<std::size_t> bed_class;
  std::vector<Path> paths;
  double value = 0.0;
};

[[nodiscard]] Totals totals_of(const Assignment& assignment, const Objective& objective);
/// A second stand of what one stand brings in full is worth nothing, but is priced like the first.
/// Lowers the prices of what `path` brings too much of, so that all of it together earns what may
/// be earned; false where it brings nothing too much.
bool lower_where_too_much(const Path& path, Prices& prices);

/// Worth and costs of an assignment, work included.
[[nodiscard]] Value value_of(const Assignment& assignment, const Objective& objective);

/// A plan without whole paths out of fractions, for a large garden or to begin with: bed by bed the
/// best path at the guide's prices, as long as what it brings is still wanted. Without a guide
/// wants pay what they are worth.
[[nodiscard]] Assignment fill(const std::vector<BedClass>& classes, Pricing& pricing,
                              const Objective& objective, const Prices& guide,
                              const Effort& effort);

/// One round of repair: bed by bed the path is taken out and the best one for what is then still
/// wanted put in its place, kept only if the whole is worth more. True if anything got better.
bool repair(Assignment& assignment, Pricing& pricing, const Objective& objective, int width,
            const std::function<bool()>& enough);

}  // namespace aftercrop::sequencer
