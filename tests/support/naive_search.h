#pragma once

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "aftercrop/rules/rule.h"
#include "sequencer/repair.h"

// The best that a tiny garden can do, by trying everything: what the sequencer is held against.
namespace aftercrop::support {

/// Every path of one class of beds, by depth-first search over the arcs. Of paths with the same
/// harvests only the cheapest is kept: no other can be part of a better plan while hands are free.
class NaivePaths {
 public:
  NaivePaths(const sequencer::BedClass& beds, const sequencer::Objective& objective)
      : beds_(&beds), objective_(&objective) {
    extend(beds.start, {});
    for (auto& [supply, path] : cheapest_) paths.push_back(std::move(path));
  }

  std::vector<sequencer::Path> paths;
  long tried = 0;  ///< all paths, the dearer ones too

 private:
  void extend(const ledger::BedState& state, const sequencer::Path& path) {
    if (state.week >= beds_->graph().weeks().past) {
      keep(path);
      return;
    }
    const auto [first, past] = beds_->graph().leaving(state.week);
    for (std::size_t i = first; i < past; ++i) {
      const graph::Arc& arc = beds_->graph().arcs()[i];
      ledger::BedState next = state;
      sequencer::Path longer = path;
      if (arc.stand >= 0) {
        if (!live(next, longer, arc.stand)) continue;
      } else {
        objective_->charge_flows(beds_->ledger->idle(next, arc.to), beds_->area_m2, longer.costs);
      }
      extend(next, longer);
    }
  }

  /// False where a rule refuses the stand.
  bool live(ledger::BedState& state, sequencer::Path& path, int stand) const {
    const sequencer::Choice& choice = beds_->choices()[static_cast<std::size_t>(stand)];
    const rules::Occasion occasion{*beds_->ledger, state, choice.stand, beds_->clubroot_seen};
    rules::Breaches breaches;
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    if (!objective_->charge_breaches(breaches, choice.worth, path.costs)) return false;
    objective_->charge_disease(state, choice.stand, choice.worth, path.costs);
    objective_->charge_flows(beds_->ledger->advance(state, choice.stand), beds_->area_m2,
                             path.costs);
    path.choices.push_back(stand);
    sequencer::add_supply(path.supply, objective_->supply_of(choice.stand.spec, beds_->area_m2));
    return true;
  }

  void keep(const sequencer::Path& path) {
    ++tried;
    const auto [found, fresh] = cheapest_.emplace(path.supply, path);
    if (!fresh && path.costs.total() > found->second.costs.total()) found->second = path;
  }

  const sequencer::BedClass* beds_;
  const sequencer::Objective* objective_;
  std::map<sequencer::Supply, sequencer::Path> cheapest_;
};

/// A garden of two beds, tried out.
class NaiveSearch {
 public:
  NaiveSearch(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
              const ledger::SiteClimates& climates)
      : objective_(garden, catalogue),
        classes_(sequencer::bed_classes(garden, catalogue, climates, objective_)) {
    for (const sequencer::BedClass& beds : classes_) by_class_.emplace_back(beds, objective_);
    class_of_.assign(garden.beds.size(), 0);
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      for (const garden::BedId bed : classes_[g].beds) class_of_[bed.place()] = g;
    }
  }

  [[nodiscard]] const std::vector<sequencer::Path>& paths(std::size_t bed) const {
    return by_class_[class_of_[bed]].paths;
  }
  [[nodiscard]] long tried(std::size_t bed) const { return by_class_[class_of_[bed]].tried; }

  /// The best of all pairs.
  [[nodiscard]] double optimum() const {
    double best = -1e300;
    for (const sequencer::Path& first : paths(0)) {
      sequencer::Assignment pair;
      pair.paths = {first, first};
      for (const sequencer::Path& second : paths(1)) {
        pair.paths[1] = second;
        best = std::max(best, sequencer::value_of(pair, objective_).total());
      }
    }
    return best;
  }

  /// Bed after bed takes its own best path for what is then still wanted.
  [[nodiscard]] double greedy(const std::vector<std::size_t>& order) const {
    sequencer::Assignment taken;
    double value = 0.0;
    for (const std::size_t bed : order) {
      const std::vector<sequencer::Path>& choice = paths(bed);
      const sequencer::Path* best = nullptr;
      taken.paths.emplace_back();
      for (const sequencer::Path& path : choice) {
        taken.paths.back() = path;
        const double now = sequencer::value_of(taken, objective_).total();
        if (best != nullptr && now <= value) continue;
        best = &path;
        value = now;
      }
      taken.paths.back() = *best;
    }
    return value;
  }

 private:
  sequencer::Objective objective_;
  std::vector<sequencer::BedClass> classes_;
  std::vector<NaivePaths> by_class_;
  std::vector<std::size_t> class_of_;
};

/// Worth of the plan without a single planting, for a garden in which nothing stands decided.
inline double idle_value(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                         const ledger::SiteClimates& climates) {
  const sequencer::Objective objective(garden, catalogue);
  sequencer::Assignment idle;
  for (const auto& beds : sequencer::bed_classes(garden, catalogue, climates, objective)) {
    ledger::BedState state = beds.start;
    sequencer::Path path;
    objective.charge_flows(beds.ledger->idle(state, garden.seasons.past), beds.area_m2, path.costs);
    idle.paths.insert(idle.paths.end(), beds.beds.size(), path);
  }
  return sequencer::value_of(idle, objective).total();
}

}  // namespace aftercrop::support
