#include "sequencer/repair.h"

#include <algorithm>

namespace aftercrop::sequencer {
namespace {

constexpr double kAboveGuide = 0.15;  // share of the worth: prices leave open what to choose
constexpr int kRepairSteps = 4;       // of the fees: they start from the last prices
constexpr std::size_t kTried = 6;
constexpr int kRounds = 3;  // of lower prices for what a path brings too much of
constexpr double kBetter = 1e-6;

}  // namespace

Totals::Totals(const Objective& objective) : delivered_m2(objective.supplies().size(), 0.0) {}

void Totals::add(const Path& path, double times) {
  for (const auto& [row, m2] : path.supply) {
    delivered_m2[static_cast<std::size_t>(row)] += times * m2;
  }
  for (const auto& [week, spent] : path.hours) {
    const auto place = static_cast<std::size_t>(week);
    if (hours.size() <= place) hours.resize(place + 1, 0.0);
    hours[place] += times * spent;
  }
  costs.nitrogen += times * path.costs.nitrogen;
  costs.leached += times * path.costs.leached;
  costs.disease += times * path.costs.disease;
  costs.bare_winter += times * path.costs.bare_winter;
  costs.warnings += times * path.costs.warnings;
  costs.changes += times * path.costs.changes;
}

Value Totals::value(const Objective& objective) const {
  Value value = costs;
  value.wants = objective.worth(delivered_m2);
  value.work = objective.charge_work(hours);
  value.changes += objective.left_behind();
  return value;
}

Prices Totals::marginal(const Objective& objective) const {
  Prices prices;
  for (const Objective::Marginal& margin : objective.marginal(delivered_m2)) {
    prices.supply.push_back(margin.worth_per_m2);
    prices.cap.push_back(margin.open_m2);
  }
  return prices;
}

Totals totals_of(const Assignment& assignment, const Objective& objective) {
  Totals totals(objective);
  for (const Path& path : assignment.paths) totals.add(path);
  return totals;
}

Value value_of(const Assignment& assignment, const Objective& objective) {
  return totals_of(assignment, objective).value(objective);
}

bool lower_where_too_much(const Path& path, Prices& prices) {
  constexpr double kMuch = 1.05;
  bool lowered = false;
  for (const auto& [row, m2] : path.supply) {
    const auto s = static_cast<std::size_t>(row);
    if (prices.cap[s] <= 0.0 || m2 <= kMuch * prices.cap[s]) continue;
    // Stands are capped one by one: only a sum of several brings more than the cap pays for.
    const double paid = std::min(1.0, prices.cap[s] / m2);
    prices.supply[s] *= paid;
    lowered = true;
  }
  return lowered;
}

Assignment fill(const std::vector<BedClass>& classes, Pricing& pricing, const Objective& objective,
                const Prices& guide, const Effort& effort) {
  Assignment plan;
  std::size_t beds = 0;
  for (const BedClass& one : classes) beds += one.beds.size();
  plan.bed_class.assign(beds, 0);
  plan.paths.resize(beds);
  Totals totals(objective);
  for (std::size_t g = 0; g < classes.size(); ++g) {
    for (const garden::BedId bed : classes[g].beds) {
      Prices prices = totals.marginal(objective);
      for (std::size_t s = 0; s < guide.supply.size(); ++s) {
        const double worth = prices.supply[s];
        prices.supply[s] = std::min(worth, guide.supply[s] + kAboveGuide * worth);
      }
      prices.work = guide.work;
      plan.bed_class[bed.place()] = g;
      std::vector<Path> found = pricing.search(g, prices, effort).paths;
      if (!found.empty()) plan.paths[bed.place()] = std::move(found.front());
      totals.add(plan.paths[bed.place()]);
    }
  }
  plan.value = totals.value(objective).total();
  return plan;
}

bool repair(Assignment& assignment, Pricing& pricing, const Objective& objective, int width,
            const std::function<bool()>& enough) {
  bool better = false;
  Totals totals = totals_of(assignment, objective);
  for (std::size_t bed = 0; bed < assignment.paths.size(); ++bed) {
    if (enough()) break;
    Path& stands = assignment.paths[bed];
    totals.add(stands, -1.0);
    Prices prices = totals.marginal(objective);
    Effort effort{width, kTried, kRepairSteps};
    effort.known = pricing.worth(assignment.bed_class[bed], stands, prices);
    for (int round = 0; round < kRounds; ++round) {
      std::vector<Path> paths = pricing.search(assignment.bed_class[bed], prices, effort).paths;
      const bool again = !paths.empty() && lower_where_too_much(paths.front(), prices);
      for (Path& path : paths) {
        Totals trial = totals;
        trial.add(path);
        const double value = trial.value(objective).total();
        if (value <= assignment.value + kBetter) continue;
        assignment.value = value;
        stands = std::move(path);
        better = true;
      }
      if (!again) break;
      effort.known = -1e300;  // other prices
    }
    totals.add(stands);
  }
  assignment.value = value_of(assignment, objective).total();
  return better;
}

}  // namespace aftercrop::sequencer
