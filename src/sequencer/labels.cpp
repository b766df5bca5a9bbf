#include "sequencer/labels.h"

#include <algorithm>
#include <map>

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;

/// How a label came about; kept apart from states, which are dropped once a week is done.
struct Step {
  int before = -1;
  int choice = -1;
};

struct Label {
  ledger::BedState state;
  Value costs;
  double value = 0.0;  ///< priced, so far
  double rank = 0.0;   ///< value and what the bed is ready for: decides which labels are kept
  int step = -1;
};

// Shares of the next heavy feeder's profit that a bed ready for it counts for when labels are
// ranked (never in a value): found by trying.
constexpr double kReadyRequired = 0.7;
constexpr double kReadyWarned = 0.1;
constexpr int kReadyWeeks = 26;

double cost_of(const Value& costs) { return -costs.total(); }

class Search {
 public:
  Search(const BedClass& beds, const Objective& objective, const Prices& prices, int width)
      : beds_(&beds), objective_(&objective), width_(static_cast<std::size_t>(width)) {
    profit_ = arc_profits(beds, prices);
    first_ = beds.graph->weeks().first;
    const auto nodes =
        static_cast<std::size_t>((beds.graph->last() - beds.graph->weeks().first).count()) + 1;
    buckets_.resize(nodes);
    worst_.assign(nodes, -1e300);
    find_hungry();
  }

  std::vector<Path> run(std::size_t paths, long* labels) {
    Label start;
    start.state = beds_->start;
    buckets_.front().push_back(std::move(start));
    const std::size_t nodes = buckets_.size();
    const auto end = static_cast<std::size_t>(beds_->graph->weeks().length().count());
    std::vector<Label> finished;
    for (std::size_t node = 0; node < nodes; ++node) {
      std::vector<Label> here = std::move(buckets_[node]);
      made_ += static_cast<long>(here.size());
      if (node >= end) {
        for (Label& label : here) finished.push_back(std::move(label));
        continue;
      }
      thin_out(here);
      for (const Label& label : here) expand(label);
    }
    if (labels != nullptr) *labels += made_;
    std::stable_sort(finished.begin(), finished.end(),
                     [](const Label& a, const Label& b) { return a.value > b.value; });
    std::vector<Path> best;
    for (const Label& label : finished) {
      if (best.size() >= paths) break;
      best.push_back(path_of(label));
    }
    return best;
  }

 private:
  std::size_t node_of(Week week) const { return static_cast<std::size_t>((week - first_).count()); }

  /// The best heavy feeder that could start within the next weeks, week by week: a bed that is
  /// ready for it is worth keeping although nothing was picked yet.
  void find_hungry() {
    const catalogue::Catalogue& rows = beds_->ledger->catalogue();
    const auto setting = beds_->ledger->garden().policy.of(garden::RuleId::LegumeBeforeHeavyFeeder);
    ready_share_ = setting == garden::Setting::Require ? kReadyRequired
                   : setting == garden::Setting::Warn  ? kReadyWarned
                                                       : 0.0;
    hungry_.assign(buckets_.size(), -1);
    if (ready_share_ == 0.0) return;
    const auto& arcs = beds_->graph->arcs();
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      if (arcs[i].stand < 0 || profit_[i] <= 0.0) continue;
      const Choice& choice = beds_->choices[static_cast<std::size_t>(arcs[i].stand)];
      if (rows.crop(choice.stand.spec.crop).feeder != catalogue::Feeder::Heavy) continue;
      const int start = static_cast<int>(node_of(arcs[i].from));
      for (int node = std::max(0, start - kReadyWeeks); node <= start; ++node) {
        int& best = hungry_[static_cast<std::size_t>(node)];
        if (best < 0 || profit_[i] > profit_[static_cast<std::size_t>(best)]) {
          best = static_cast<int>(i);
        }
      }
    }
  }

  double readiness(const ledger::BedState& state) {
    const int arc = hungry_[node_of(state.week)];
    if (arc < 0) return 0.0;
    const auto place = static_cast<std::size_t>(arc);
    const int stand = beds_->graph->arcs()[place].stand;
    const rules::Occasion occasion{*beds_->ledger, state,
                                   beds_->choices[static_cast<std::size_t>(stand)].stand, false};
    breaches_.clear();
    legume_rule_->judge(occasion, breaches_);
    return breaches_.empty() ? ready_share_ * profit_[place] : 0.0;
  }

  /// Keeps the most promising labels, not too many with the same two last stands.
  void thin_out(std::vector<Label>& here) const {
    std::stable_sort(here.begin(), here.end(),
                     [](const Label& a, const Label& b) { return a.rank > b.rank; });
    std::map<std::pair<catalogue::CropId, catalogue::CropId>, std::size_t> alike;
    const std::size_t each = std::max<std::size_t>(2, width_ / 6);
    std::vector<Label> kept;
    for (Label& label : here) {
      if (kept.size() >= width_) break;
      const auto& recent = label.state.recent;
      if (++alike[{recent[0].crop, recent[1].crop}] > each) continue;
      kept.push_back(std::move(label));
    }
    here = std::move(kept);
  }

  void expand(const Label& label) {
    const auto [first, past] = beds_->graph->leaving(label.state.week);
    for (std::size_t i = first; i < past; ++i) {
      const graph::Arc& arc = beds_->graph->arcs()[i];
      const std::size_t node = node_of(arc.to);
      // The bucket is full of better: not worth living through the stand.
      if (!arc.fixed && label.value + profit_[i] + most_ready(node) <= worst_[node]) continue;
      // Rules speak before the state is copied: most arcs end here.
      Value entry = label.costs;
      if (arc.stand >= 0 && !may_enter(label.state, arc, entry)) continue;
      Label next = label;
      next.costs = entry;
      if (arc.stand < 0) {
        live_idle(next, arc.to);
      } else {
        const Choice& choice = beds_->choices[static_cast<std::size_t>(arc.stand)];
        const ledger::StandOutcome outcome = beds_->ledger->advance(next.state, choice.stand);
        objective_->charge_flows(outcome, beds_->area_m2, next.costs);
      }
      next.value += profit_[i] - (cost_of(next.costs) - cost_of(label.costs));
      next.rank = next.value + readiness(next.state);
      if (!arc.fixed && next.rank <= worst_[node]) continue;
      next.step = static_cast<int>(steps_.size());
      steps_.push_back({label.step, arc.stand});
      put(std::move(next), node);
    }
  }

  double most_ready(std::size_t node) const {
    const int arc = hungry_[node];
    return arc < 0 ? 0.0 : ready_share_ * profit_[static_cast<std::size_t>(arc)];
  }

  void live_idle(Label& next, Week until) const {
    const ledger::StandOutcome outcome = beds_->ledger->idle(next.state, until);
    objective_->charge_flows(outcome, beds_->area_m2, next.costs);
  }

  bool may_enter(const ledger::BedState& before, const graph::Arc& arc, Value& costs) {
    const Choice& choice = beds_->choices[static_cast<std::size_t>(arc.stand)];
    costs.warnings += choice.fixed.warnings;
    costs.changes += choice.fixed.changes;
    if (arc.fixed) return true;  // decided already: told by the checker, not priced
    breaches_.clear();
    rules::judge_before({*beds_->ledger, before, choice.stand, beds_->clubroot_seen}, breaches_);
    if (!objective_->charge_breaches(breaches_, choice.worth, costs)) return false;
    objective_->charge_disease(before, choice.stand, choice.worth, costs);
    return true;
  }

  void put(Label label, std::size_t node) {
    auto& bucket = buckets_[node];
    bucket.push_back(std::move(label));
    const std::size_t room = 2 * width_;
    if (bucket.size() < room + width_) return;
    std::nth_element(bucket.begin(), bucket.begin() + static_cast<std::ptrdiff_t>(room),
                     bucket.end(), [](const Label& a, const Label& b) {
                       return a.rank != b.rank ? a.rank > b.rank : a.step < b.step;
                     });
    worst_[node] = bucket[room].rank;
    bucket.resize(room);
  }

  Path path_of(const Label& label) const {
    Path path;
    path.costs = label.costs;
    path.priced = label.value;
    path.supply.assign(objective_->supplies().size(), 0.0);
    std::map<int, double> hours;
    for (int step = label.step; step >= 0; step = steps_[static_cast<std::size_t>(step)].before) {
      const int choice = steps_[static_cast<std::size_t>(step)].choice;
      if (choice < 0) continue;
      path.choices.push_back(choice);
      const Choice& taken = beds_->choices[static_cast<std::size_t>(choice)];
      for (const auto& [row, m2] : taken.supply) path.supply[static_cast<std::size_t>(row)] += m2;
      for (const auto& [week, spent] : taken.hours) hours[week] += spent;
    }
    std::reverse(path.choices.begin(), path.choices.end());
    path.hours.assign(hours.begin(), hours.end());
    return path;
  }

  const BedClass* beds_;
  const Objective* objective_;
  std::size_t width_;
  std::vector<double> profit_;
  std::vector<int> hungry_;  ///< arc of the best heavy feeder near, one a node; -1 = none
  double ready_share_ = 0.0;
  const rules::Rule* legume_rule_ = rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder);
  Week first_;
  std::vector<std::vector<Label>> buckets_;
  std::vector<double> worst_;
  std::vector<Step> steps_;
  rules::Breaches breaches_;
  long made_ = 0;
};

}  // namespace

std::vector<double> arc_profits(const BedClass& beds, const Prices& prices) {
  std::vector<double> profits;
  profits.reserve(beds.graph->arcs().size());
  for (const graph::Arc& arc : beds.graph->arcs()) {
    double profit = 0.0;
    if (arc.stand >= 0) {
      const Choice& choice = beds.choices[static_cast<std::size_t>(arc.stand)];
      for (const auto& [row, m2] : choice.supply) {
        const auto place = static_cast<std::size_t>(row);
        const double paid = prices.cap.empty() ? m2 : std::min(m2, prices.cap[place]);
        profit += prices.supply[place] * paid;
      }
      for (const auto& [week, hours] : choice.hours) {
        if (!prices.work.empty()) profit -= prices.work[static_cast<std::size_t>(week)] * hours;
      }
    }
    profits.push_back(profit);
  }
  return profits;
}

std::vector<Path> search_paths(const BedClass& beds, const Objective& objective,
                               const Prices& prices, int width, std::size_t paths, long* labels) {
  return Search(beds, objective, prices, width).run(paths, labels);
}

}  // namespace aftercrop::sequencer
