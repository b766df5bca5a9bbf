#include "sequencer/bound.h"

#include <algorithm>

namespace aftercrop::sequencer {

double upper_bound(const std::vector<BedClass>& classes, const Objective& objective,
                   const Prices& prices) {
  constexpr double kRounding = 1e-6;  // far above the error of these sums
  double bound = 0.0;
  for (const WantRow& want : objective.wants()) {
    double margin = 0.0;
    for (const int supply : want.supplies) {
      margin =
          std::max(margin, want.worth_per_m2 - prices.supply[static_cast<std::size_t>(supply)]);
    }
    bound += margin * want.amount_m2;
  }
  for (std::size_t s = 0; s < prices.supply.size(); ++s) {
    bound += prices.supply[s] * objective.given()[s];
  }
  for (const BedClass& beds : classes) {
    const std::vector<double> ahead = beds.graph->greatest_from(arc_profits(beds, prices));
    bound += static_cast<double>(beds.beds.size()) * std::max(0.0, ahead.front());
  }
  for (std::size_t week = 0; week < prices.work.size(); ++week) {
    bound += prices.work[week] * objective.hands(week);
  }
  return bound * (1.0 + kRounding) + kRounding;
}

}  // namespace aftercrop::sequencer
