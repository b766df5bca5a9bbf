#include "sequencer/bound.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::sequencer {

std::vector<double> lost_to_roundings(const Prices& prices, std::size_t wants) {
  std::vector<double> lost(wants, 0.0);
  for (const auto& [rounding, price] : prices.roundings) lost[rounding.want] += price;
  return lost;
}

double upper_bound(const std::vector<BedClass>& classes, const Objective& objective,
                   const Prices& prices, const std::vector<double>& class_bounds) {
  constexpr double kRounding = 1e-6;  // far above the error of these sums
  double bound = 0.0;
  const std::vector<double> lost = lost_to_roundings(prices, objective.wants().size());
  for (const auto& [rounding, price] : prices.roundings) {
    bound += price * (objective.wants()[rounding.want].amount_m2 - rounding.least);
  }
  for (std::size_t k = 0; k < objective.wants().size(); ++k) {
    const WantRow& want = objective.wants()[k];
    double margin = 0.0;
    for (const int supply : want.supplies) {
      margin = std::max(
          margin, want.worth_per_m2 - lost[k] - prices.supply[static_cast<std::size_t>(supply)]);
    }
    bound += margin * want.amount_m2;
  }
  for (std::size_t s = 0; s < prices.supply.size(); ++s) {
    bound += prices.supply[s] * objective.given()[s];
  }
  for (std::size_t g = 0; g < classes.size(); ++g) {
    bound += static_cast<double>(classes[g].beds.size()) * class_bounds[g];
  }
  for (std::size_t week = 0; week < prices.work.size(); ++week) {
    bound += prices.work[week] * objective.hands(week);
  }
  bound -= objective.left_behind();
  return bound + kRounding * (1.0 + std::abs(bound));
}

}  // namespace aftercrop::sequencer
