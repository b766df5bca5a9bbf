#include "sequencer/pricing.h"

#include <atomic>
#include <map>
#include <thread>

namespace aftercrop::sequencer {

Pricing::Pricing(const std::vector<BedClass>& classes, const Objective& objective)
    : classes_(&classes), objective_(&objective) {
  std::map<const BedKind*, std::size_t> known;
  for (const BedClass& beds : classes) {
    const auto [kind, fresh] = known.try_emplace(beds.kind.get(), relaxed_.size());
    if (fresh) relaxed_.push_back(std::make_unique<Relaxed>(beds, objective));
    kind_.push_back(kind->second);
  }
  completions_.reserve(classes.size());
  for (std::size_t g = 0; g < classes.size(); ++g) {
    const Relaxed& relaxed = *relaxed_[kind_[g]];
    completions_.emplace_back(relaxed, relaxed.past_of(classes[g]));
  }
}

/// Every class of a kind sees the same profits.
std::vector<std::vector<double>> Pricing::profits_of_kinds(const Prices& prices) const {
  std::vector<std::vector<double>> profits(relaxed_.size());
  for (std::size_t g = 0; g < kind_.size(); ++g) {
    std::vector<double>& mine = profits[kind_[g]];
    if (mine.empty()) mine = arc_profits((*classes_)[g], prices);
  }
  return profits;
}

Found Pricing::search(std::size_t bed_class, const Prices& prices, const Effort& effort) {
  Found found =
      search_paths((*classes_)[bed_class], *objective_, arc_profits((*classes_)[bed_class], prices),
                   completions_[bed_class], effort);
  labels_ += found.labels;
  return found;
}

Found Pricing::search_apart(std::size_t bed_class, const Prices& prices,
                            const Effort& effort) const {
  Completion completion = completions_[bed_class];
  const BedClass& beds = (*classes_)[bed_class];
  Found found = search_paths(beds, *objective_, arc_profits(beds, prices), completion, effort);
  labels_ += found.labels;
  return found;
}

double Pricing::worth(std::size_t bed_class, const Path& path, const Prices& prices) const {
  double sum = path.costs.total();
  for (const int choice : path.choices) {
    sum += profit_of((*classes_)[bed_class].choices()[static_cast<std::size_t>(choice)], prices);
  }
  return sum;
}

/// Two at a time. What is done for one class must touch nothing of another.
template <class Work>
void Pricing::for_each_class(const Work& work) const {
  std::atomic<std::size_t> next{0};
  const auto share = [&] {
    for (std::size_t g = next++; g < classes_->size(); g = next++) work(g);
  };
  const std::jthread other(share);
  share();
}

std::vector<Pricing::Relaxation> Pricing::relax_all(const Prices& prices, int fee_steps) {
  std::vector<Relaxation> found(classes_->size());
  const std::vector<std::vector<double>> of_kinds = profits_of_kinds(prices);
  for_each_class([&](std::size_t g) {
    const BedClass& beds = (*classes_)[g];
    const std::vector<double>& profits = of_kinds[kind_[g]];
    completions_[g].solve(profits, fee_steps, kNothingKnown);
    found[g].bound = completions_[g].bound();
    for (const std::size_t arc : completions_[g].best_arcs(profits)) {
      const int stand = beds.graph().arcs()[arc].stand;
      if (stand >= 0) found[g].choices.push_back(stand);
    }
  });
  return found;
}

std::vector<Found> Pricing::search_all(const Prices& prices, const Effort& effort,
                                       const std::vector<double>& known,
                                       const std::vector<char>& asked) {
  std::vector<Found> found(classes_->size());
  const std::vector<std::vector<double>> profits = profits_of_kinds(prices);
  std::atomic<bool> gave_up = false;
  for_each_class([&](std::size_t g) {
    if (!asked.empty() && asked[g] == 0) return;
    if (gave_up || (late_ && late_())) {
      gave_up = true;
      return;
    }
    Effort mine = effort;
    if (!known.empty()) mine.known = known[g];
    found[g] = search_paths((*classes_)[g], *objective_, profits[kind_[g]], completions_[g], mine);
  });
  for (const Found& one : found) labels_ += one.labels;
  if (gave_up) found.clear();
  return found;
}

}  // namespace aftercrop::sequencer
