#include "sequencer/repair.h"

#include <algorithm>

namespace aftercrop::sequencer {
namespace {

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

bool repair(Assignment& assignment, const std::vector<BedClass>& classes,
            const Objective& objective, int width, long* labels,
            const std::function<bool()>& enough) {
  constexpr std::size_t kTried = 6;
  constexpr double kBetter = 1e-6;
  bool better = false;
  for (std::size_t bed = 0; bed < assignment.paths.size(); ++bed) {
    if (enough()) break;
    const BedClass& beds = classes[assignment.bed_class[bed]];
    const Prices prices = marginal_prices(assignment, bed, objective);
    for (Path& path : search_paths(beds, objective, prices, width, kTried, labels)) {
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

bool rebuild(Assignment& assignment, const std::vector<std::size_t>& beds,
             const std::vector<BedClass>& classes, const Objective& objective, int width,
             long* labels) {
  constexpr std::size_t kTried = 4;
  constexpr double kBetter = 1e-6;
  Assignment trial = assignment;
  for (const std::size_t bed : beds) {
    trial.paths[bed] = {};
    trial.paths[bed].supply.assign(objective.supplies().size(), 0.0);
  }
  for (const std::size_t bed : beds) {
    const BedClass& of = classes[trial.bed_class[bed]];
    const Prices prices = marginal_prices(trial, bed, objective);
    double best = -1e300;
    Path chosen = trial.paths[bed];
    for (Path& path : search_paths(of, objective, prices, width, kTried, labels)) {
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

std::size_t Shaker::draw(std::size_t below) {
  state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;  // Knuth's MMIX generator
  return static_cast<std::size_t>((state_ >> 33U) % below);
}

std::vector<std::size_t> Shaker::next() {
  std::vector<std::size_t> order(beds_);
  for (std::size_t i = 0; i < beds_; ++i) order[i] = i;
  const std::size_t count = std::min<std::size_t>(beds_, 2 + draw(4));
  for (std::size_t i = 0; i < count; ++i) std::swap(order[i], order[i + draw(beds_ - i)]);
  order.resize(count);
  return order;
}

}  // namespace aftercrop::sequencer
