#include "sequencer/shake.h"

#include <algorithm>
#include <atomic>
#include <iterator>
#include <thread>

namespace aftercrop::sequencer {
namespace {

constexpr std::size_t kTrials = 16;  // a batch, whatever the number of threads
constexpr std::size_t kFewestBeds = 2;
constexpr std::size_t kMoreBeds = 4;
constexpr std::size_t kTried = 4;
constexpr int kWidth = 6;
constexpr int kSteps = 3;
constexpr double kTilt = 0.3;
constexpr double kBetter = 1e-6;

}  // namespace

Shake::Shake(const Pricing& pricing, const Objective& objective)
    : pricing_(&pricing), objective_(&objective) {}

Shake::Trial Shake::draw_trial(std::size_t beds) {
  Trial trial;
  std::vector<std::size_t> order(beds);
  for (std::size_t i = 0; i < beds; ++i) order[i] = i;
  const std::size_t count = std::min(beds, kFewestBeds + draw_.below(kMoreBeds));
  for (std::size_t i = 0; i < count; ++i) std::swap(order[i], order[i + draw_.below(beds - i)]);
  trial.beds.assign(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(count));
  for (std::size_t s = 0; s < objective_->supplies().size(); ++s) {
    trial.tilt.push_back(1.0 + kTilt * (draw_.unit() - 0.5));
  }
  return trial;
}

void Shake::run(const Assignment& plan, const Totals& totals, Trial& trial) const {
  Totals now = totals;
  for (const std::size_t bed : trial.beds) now.add(plan.paths[bed], -1.0);
  double best = now.value(*objective_).total();
  for (std::size_t i = 0; i < trial.beds.size(); ++i) {
    const std::size_t bed_class = plan.bed_class[trial.beds[i]];
    Prices prices = now.marginal(*objective_);
    Effort effort{kWidth, kTried, kSteps};
    const bool last = i + 1 == trial.beds.size();
    if (last) {
      effort.known = plan.value + kBetter - best;  // less does not make the whole better
    } else {
      for (std::size_t s = 0; s < prices.supply.size(); ++s) prices.supply[s] *= trial.tilt[s];
    }
    Found found = pricing_->search_apart(bed_class, prices, effort);
    if (!found.paths.empty() && lower_where_too_much(found.paths.front(), prices)) {
      effort.known = -1e300;  // other prices
      Found other = pricing_->search_apart(bed_class, prices, effort);
      std::move(other.paths.begin(), other.paths.end(), std::back_inserter(found.paths));
    }
    const Path* chosen = nullptr;
    for (const Path& path : found.paths) {
      Totals with = now;
      with.add(path);
      const double value = with.value(*objective_).total();
      if (chosen != nullptr && value <= best) continue;
      best = value;
      chosen = &path;
    }
    if (chosen == nullptr) {
      trial.paths.clear();
      return;
    }
    now.add(*chosen);
    trial.paths.push_back(*chosen);
  }
  trial.value = best;
}

bool Shake::keep(Assignment& plan, Totals& totals, Trial& trial) const {
  Totals with = totals;
  for (std::size_t i = 0; i < trial.paths.size(); ++i) {
    with.add(plan.paths[trial.beds[i]], -1.0);
    with.add(trial.paths[i]);
  }
  const double value = with.value(*objective_).total();
  if (value <= plan.value + kBetter) return false;
  for (std::size_t i = 0; i < trial.paths.size(); ++i) {
    plan.paths[trial.beds[i]] = std::move(trial.paths[i]);
  }
  plan.value = value;
  totals = std::move(with);
  return true;
}

bool Shake::round(Assignment& plan) {
  Totals totals = totals_of(plan, *objective_);
  std::vector<Trial> trials;
  for (std::size_t i = 0; i < kTrials; ++i) trials.push_back(draw_trial(plan.paths.size()));
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < trials.size(); i = next++) run(plan, totals, trials[i]);
  };
  {
    const std::jthread other(work);
    work();
  }
  std::stable_sort(trials.begin(), trials.end(),
                   [](const Trial& a, const Trial& b) { return a.value > b.value; });
  std::vector<char> changed(plan.paths.size(), 0);
  bool better = false;
  for (Trial& trial : trials) {
    if (trial.paths.empty()) continue;
    const bool apart = std::none_of(trial.beds.begin(), trial.beds.end(),
                                    [&](std::size_t bed) { return changed[bed] != 0; });
    if (!apart || !keep(plan, totals, trial)) continue;
    for (const std::size_t bed : trial.beds) changed[bed] = 1;
    better = true;
  }
  return better;
}

}  // namespace aftercrop::sequencer
