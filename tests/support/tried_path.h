#pragma once

#include <vector>

#include "support/plain_worth.h"

namespace aftercrop::support {

/// What is left out of the account to see whether it binds.
enum class Lifted { Nothing, Breaks, Loads, NitrogenPrice, LeachingPrice };
inline constexpr std::size_t kLifts = 5;

/// Harvests by cell (crop and week that some want is open for) and what they cost.
struct TriedPath {
  std::vector<double> picked;
  PlainCosts costs;
  bool breaks_refuse = false;
  bool loads_refuse = false;

  [[nodiscard]] bool possible(Lifted lifted) const {
    return (!breaks_refuse || lifted == Lifted::Breaks) &&
           (!loads_refuse || lifted == Lifted::Loads);
  }
  [[nodiscard]] double cost(Lifted lifted) const {
    double sum = costs.total();
    if (lifted == Lifted::Breaks) sum -= costs.break_warnings;
    if (lifted == Lifted::Loads) sum -= costs.load_warnings + costs.disease;
    if (lifted == Lifted::NitrogenPrice) sum -= costs.nitrogen;
    if (lifted == Lifted::LeachingPrice) sum -= costs.leached;
    return sum;
  }
};

}  // namespace aftercrop::support
