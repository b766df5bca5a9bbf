#include "sequencer/repair.h"

#include <algorithm>

namespace aftercrop::sequencer {
namespace {

constexpr int kRepairSteps = 4;  // of the multipliers: they start from the last prices

/// Prices that a bed sees when all others are as they are.
Prices marginal_prices(const Assignment& assignment, std::size_t bed, const Objective& objective) {
  std::vector<double> delivered(objective.supplies().size(), 0.0);
  for (std::size_t other = 0; other < assignment.paths.size(); ++other) {
    if (other == bed) continue;
    for (std::size_t s = 0; s < delivered.size(); ++s) {
      delivered[s] += assignment.paths[other].supply[s];
    }
  }
  Prices prices;
  for (const Objective::Marginal& margin : objective.marginal(delivered)) {
    prices.supply.push_back(margin.worth_per_m2);
    prices.cap.push_back(margin.open_m2);
  }
  return prices;
}

}  // namespace

Value value_of(const Assignment& assignment, const Objective& objective) {
  Value value;
  std::vector<double> delivered(objective.supplies().size(), 0.0);
  std::vector<double> hours;
  for (const Path& path : assignment.paths) {
    value.nitrogen += path.costs.nitrogen;
    value.leached += path.costs.leached;
    value.disease += path.costs.disease;
    value.bare_winter += path.costs.bare_winter;
    value.warnings += path.costs.warnings;
    value.changes += path.costs.changes;
    for (std::size_t s = 0; s < delivered.size(); ++s) delivered[s] += path.supply[s];
    for (const auto& [week, spent] : path.hours) {
      const auto place = static_cast<std::size_t>(week);
      if (hours.size() <= place) hours.resize(place + 1, 0.0);
      hours[place] += spent;
    }
  }
  value.wants = objective.worth(delivered);
  value.work = objective.charge_work(hours);
  return value;
}

bool repair(Assignment& assignment, Pricing& pricing, const Objective& objective, int width,
            const std::function<bool()>& enough) {
  constexpr std::size_t kTried = 6;
  constexpr double kBetter = 1e-6;
  bool better = false;
  for (std::size_t bed = 0; bed < assignment.paths.size(); ++bed) {
    if (enough()) break;
    const Prices prices = marginal_prices(assignment, bed, objective);
    Effort effort{width, kTried, kRepairSteps};
    effort.known = pricing.worth(assignment.bed_class[bed], assignment.paths[bed], prices);
    for (Path& path : pricing.search(assignment.bed_class[bed], prices, effort).paths) {
      std::swap(path, assignment.paths[bed]);
      const double value = value_of(assignment, objective).total();
      if (value > assignment.value + kBetter) {
        assignment.value = value;
        better = true;
      } else {
        std::swap(path, assignment.paths[bed]);
      }
    }
  }
  return better;
}

bool rebuild(Assignment& assignment, const std::vector<std::size_t>& beds, Pricing& pricing,
             const Objective& objective, int width) {
  constexpr std::size_t kTried = 4;
  constexpr double kBetter = 1e-6;
  Assignment trial = assignment;
  for (const std::size_t bed : beds) {
    trial.paths[bed] = {};
    trial.paths[bed].supply.assign(objective.supplies().size(), 0.0);
  }
  for (const std::size_t bed : beds) {
    const Prices prices = marginal_prices(trial, bed, objective);
    double best = -1e300;
    Path chosen = trial.paths[bed];
    const Effort effort{width, kTried, kRepairSteps};
    for (Path& path : pricing.search(trial.bed_class[bed], prices, effort).paths) {
      std::swap(trial.paths[bed], path);
      const double value = value_of(trial, objective).total();
      if (value <= best) continue;
      best = value;
      chosen = trial.paths[bed];
    }
    trial.paths[bed] = std::move(chosen);
    trial.value = best;
  }
  if (trial.value <= assignment.value + kBetter) return false;
  assignment = std::move(trial);
  return true;
}

}  // namespace aftercrop::sequencer
