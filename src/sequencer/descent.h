#pragma once

#include <functional>
#include <vector>

#include "sequencer/pricing.h"

namespace aftercrop::sequencer {

/// Looks for prices that give a low bound, by steps along a slope of the Lagrangian. Every class is
/// only asked for its completion, so a step costs little; the master's own prices are too wild for
/// a good bound where land is plentiful.
class Descent {
 public:
  /// All must outlive it.
  Descent(const std::vector<BedClass>& classes, const Objective& objective, Pricing& pricing);

  /// From the better of these prices, at most so many steps and while `more` says so. `target` =
  /// what some plan or the master is known to be worth. Returns the prices of the lowest bound.
  /// Roundings of the last of them that others lack are added there at no price.
  [[nodiscard]] Prices run(std::vector<Prices> from, int steps, double target,
                           const std::function<bool()>& more);
  [[nodiscard]] double bound() const { return bound_; }  ///< of the prices returned

 private:
  struct Slope {
    std::vector<double> supply;
    std::vector<double> work;
    std::vector<double> roundings;
  };
  [[nodiscard]] Prices best_of(std::vector<Prices> from);
  double look(const Prices& prices, Slope& slope);
  void look_at_wants(const Prices& prices, Slope& slope) const;
  static double square(const Slope& slope, const Prices& at);
  void move(Prices& prices, const Slope& slope, double stride) const;

  const std::vector<BedClass>* classes_;
  const Objective* objective_;
  Pricing* pricing_;
  std::vector<double> dearest_;  ///< price above which nobody would buy, one a supply row
  double hour_ = 0.0;
  double bound_ = 0.0;
};

}  // namespace aftercrop::sequencer
