#include "sequencer/descent.h"

#include <algorithm>
#include <cmath>

#include "sequencer/bound.h"

namespace aftercrop::sequencer {
namespace {

constexpr double kScale = 1024.0;  // prices are kept on this grid, as the master's are
constexpr double kMemory = 0.6;    // of the last slope in the next: damps the zigzag
constexpr int kPatience = 8;       // steps in vain before they get shorter
constexpr int kFeeSteps = 2;

double on_grid(double price) { return std::round(price * kScale) / kScale; }

}  // namespace

Descent::Descent(const std::vector<BedClass>& classes, const Objective& objective, Pricing& pricing)
    : classes_(&classes), objective_(&objective), pricing_(&pricing) {
  dearest_.assign(objective.supplies().size(), 0.0);
  for (const WantRow& want : objective.wants()) {
    for (const int supply : want.supplies) {
      double& dearest = dearest_[static_cast<std::size_t>(supply)];
      dearest = std::max(dearest, want.worth_per_m2);
    }
  }
  if (!classes.empty()) hour_ = classes.front().ledger->garden().costs.work_per_hour;
}

/// Wants buy where it is cheapest, as long as it is worth the price.
void Descent::look_at_wants(const Prices& prices, Slope& slope) const {
  const std::vector<double> lost = lost_to_roundings(prices, objective_->wants().size());
  for (std::size_t k = 0; k < objective_->wants().size(); ++k) {
    const WantRow& want = objective_->wants()[k];
    int cheapest = -1;
    for (const int supply : want.supplies) {
      const auto place = static_cast<std::size_t>(supply);
      if (cheapest < 0 ||
          prices.supply[place] < prices.supply[static_cast<std::size_t>(cheapest)]) {
        cheapest = supply;
      }
    }
    if (cheapest < 0) continue;
    const auto place = static_cast<std::size_t>(cheapest);
    if (want.worth_per_m2 - lost[k] <= prices.supply[place]) continue;
    slope.supply[place] -= want.amount_m2;
    for (std::size_t i = 0; i < prices.roundings.size(); ++i) {
      if (prices.roundings[i].first.want == k) slope.roundings[i] -= want.amount_m2;
    }
  }
}

double Descent::look(const Prices& prices, Slope& slope) {
  const std::vector<Pricing::Relaxation> found = pricing_->relax_all(prices, kFeeSteps);
  slope.supply = objective_->given();
  slope.work.assign(prices.work.size(), 0.0);
  for (std::size_t week = 0; week < slope.work.size(); ++week) {
    slope.work[week] = objective_->hands(week);
  }
  slope.roundings.clear();
  for (const auto& [rounding, price] : prices.roundings) {
    slope.roundings.push_back(objective_->wants()[rounding.want].amount_m2 - rounding.least);
  }
  std::vector<double> bounds;
  for (std::size_t g = 0; g < found.size(); ++g) {
    const auto beds = static_cast<double>((*classes_)[g].beds.size());
    bounds.push_back(found[g].bound);
    for (const int stand : found[g].choices) {
      const Choice& choice = (*classes_)[g].choices()[static_cast<std::size_t>(stand)];
      for (const auto& [row, m2] : choice.supply) {
        slope.supply[static_cast<std::size_t>(row)] += beds * m2;
      }
      if (!choice.supply.empty()) {
        for (std::size_t i = 0; i < prices.roundings.size(); ++i) {
          slope.roundings[i] += beds * prices.roundings[i].first.counted(choice.supply);
        }
      }
      for (const auto& [week, hours] : choice.hours) {
        const auto place = static_cast<std::size_t>(week);
        if (place < slope.work.size()) slope.work[place] -= beds * hours;
      }
    }
  }
  look_at_wants(prices, slope);
  return upper_bound(*classes_, *objective_, prices, bounds);
}

/// Only where a step could go: a price of nothing cannot fall.
double Descent::square(const Slope& slope, const Prices& at) {
  double sum = 0.0;
  for (std::size_t s = 0; s < slope.supply.size(); ++s) {
    if (at.supply[s] > 0.0 || slope.supply[s] < 0.0) sum += slope.supply[s] * slope.supply[s];
  }
  for (std::size_t w = 0; w < slope.work.size(); ++w) {
    if (at.work[w] > 0.0 || slope.work[w] < 0.0) sum += slope.work[w] * slope.work[w];
  }
  for (std::size_t i = 0; i < slope.roundings.size(); ++i) {
    const double one = slope.roundings[i];
    if (at.roundings[i].second > 0.0 || one < 0.0) sum += one * one;
  }
  return sum;
}

void Descent::move(Prices& prices, const Slope& slope, double stride) const {
  for (std::size_t s = 0; s < slope.supply.size(); ++s) {
    prices.supply[s] =
        on_grid(std::clamp(prices.supply[s] - stride * slope.supply[s], 0.0, dearest_[s]));
  }
  for (std::size_t w = 0; w < slope.work.size(); ++w) {
    prices.work[w] = on_grid(std::clamp(prices.work[w] - stride * slope.work[w], 0.0, hour_));
  }
  for (std::size_t i = 0; i < slope.roundings.size(); ++i) {
    double& price = prices.roundings[i].second;
    price = on_grid(std::max(0.0, price - stride * slope.roundings[i]));
  }
}

Prices Descent::best_of(std::vector<Prices> from) {
  Prices best;
  Slope slope;
  for (Prices& prices : from) {
    if (prices.supply.empty()) continue;
    for (std::size_t i = prices.roundings.size(); i < from.back().roundings.size(); ++i) {
      prices.roundings.emplace_back(from.back().roundings[i].first, 0.0);
    }
    const double bound = look(prices, slope);
    if (!best.supply.empty() && bound >= bound_) continue;
    bound_ = bound;
    best = std::move(prices);
  }
  return best;
}

Prices Descent::run(std::vector<Prices> from, int steps, double target,
                    const std::function<bool()>& more) {
  Prices now = best_of(std::move(from));
  Slope slope;
  Slope way;
  Prices best = now;
  bound_ = look(now, slope);
  double value = bound_;
  double scale = 1.0;
  for (int step = 0, in_vain = 0; step < steps && more(); ++step) {
    if (way.supply.empty()) way = slope;
    for (std::size_t s = 0; s < way.supply.size(); ++s) {
      way.supply[s] = kMemory * way.supply[s] + (1.0 - kMemory) * slope.supply[s];
    }
    for (std::size_t w = 0; w < way.work.size(); ++w) {
      way.work[w] = kMemory * way.work[w] + (1.0 - kMemory) * slope.work[w];
    }
    for (std::size_t i = 0; i < way.roundings.size(); ++i) {
      way.roundings[i] = kMemory * way.roundings[i] + (1.0 - kMemory) * slope.roundings[i];
    }
    const double length = square(way, now);
    if (length < 1e-9 || value <= target) break;
    move(now, way, scale * (value - target) / length);
    value = look(now, slope);
    if (value < bound_) {
      bound_ = value;
      best = now;
      in_vain = 0;
    } else if (++in_vain >= kPatience) {
      in_vain = 0;
      scale *= 0.6;
      now = best;
      value = look(now, slope);
      way = slope;
    }
  }
  return best;
}

}  // namespace aftercrop::sequencer
