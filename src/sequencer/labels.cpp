#include "sequencer/labels.h"

#include <algorithm>
#include <deque>
#include <map>
#include <tuple>

#include "sequencer/completion.h"

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;

/// A path so far, lived through to its last week.
struct Label {
  ledger::BedState state;
  Relaxed::Standing standing;
  Value costs;
  double value = 0.0;  ///< priced, so far
  int before = -1;     ///< place of the label it grew from
  int choice = -1;
};

/// One more arc on a label, not lived through yet. Most never are: they are refused, or their rank
/// is too low.
struct Try {
  double rank = 0.0;  ///< no path that begins so earns more
  int label = -1;
  int arc = -1;
};

constexpr double kNothing = -1e300;
constexpr std::size_t kTriesFor = 16;  // tries that may wait, for each label that is kept
constexpr std::size_t kLivedFor = 3;   // labels lived through, for each that is kept

/// Tries that end at one node.
struct Waiting {
  std::vector<Try> tries;
  double least = kNothing;  ///< rank below which there is no room
};

double cost_of(const Value& costs) { return -costs.total(); }

class Search {
 public:
  Search(const BedClass& beds, const Objective& objective, const std::vector<double>& profits,
         const Completion& completion, const Effort& effort)
      : beds_(&beds),
        objective_(&objective),
        completion_(&completion),
        width_(static_cast<std::size_t>(effort.width)),
        varied_(effort.varied),
        floor_(effort.known),
        profit_(&profits) {
    first_ = beds.graph().weeks().first;
    end_ = static_cast<std::size_t>(beds.graph().weeks().length().count());
    waiting_.resize(static_cast<std::size_t>((beds.graph().last() - first_).count()) + 1);
  }

  Found run(std::size_t paths) {
    Label start;
    start.state = beds_->start;
    start.standing = completion_->relaxed().standing(start.state);
    labels_.push_back(std::move(start));
    grow(0);
    std::vector<std::pair<double, int>> finished;  // value, label
    for (std::size_t node = 1; node < waiting_.size(); ++node) {
      for (const int label : live_through(waiting_[node].tries, node)) {
        if (node < end_) {
          grow(label);
        } else {
          finished.emplace_back(labels_[static_cast<std::size_t>(label)].value, label);
        }
      }
      waiting_[node] = {};
    }
    std::stable_sort(finished.begin(), finished.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    Found found;
    for (const auto& [value, label] : finished) {
      if (found.paths.size() >= paths) break;
      found.paths.push_back(path_of(label));
    }
    const double best = finished.empty() ? kNothing : finished.front().first;
    found.bound = std::min(completion_->bound(), std::max({best, floor_, dropped_}));
    found.labels = static_cast<long>(labels_.size());
    return found;
  }

 private:
  std::size_t node_of(Week week) const { return static_cast<std::size_t>((week - first_).count()); }

  /// Notes every arc that could follow and still lead to more than what is known.
  void grow(int place) {
    const Label& label = labels_[static_cast<std::size_t>(place)];
    completion_->fees_by_season(label.standing, fees_);
    const auto [first, past] = beds_->graph().leaving(label.state.week);
    for (std::size_t i = first; i < past; ++i) {
      const double rank =
          label.value + (*profit_)[i] + completion_->ahead_through(i, label.standing, fees_);
      if (rank > floor_) note({rank, place, static_cast<int>(i)});
    }
  }

  /// Keeps a try, unless its node has far more than it can use.
  void note(const Try& attempt) {
    Waiting& waiting =
        waiting_[node_of(beds_->graph().arcs()[static_cast<std::size_t>(attempt.arc)].to)];
    if (attempt.rank <= waiting.least) {
      dropped_ = std::max(dropped_, attempt.rank);
      return;
    }
    waiting.tries.push_back(attempt);
    const std::size_t room = kTriesFor * width_;
    if (waiting.tries.size() < 2 * room) return;
    const auto nth = waiting.tries.begin() + static_cast<std::ptrdiff_t>(room);
    std::nth_element(waiting.tries.begin(), nth, waiting.tries.end(),
                     [](const Try& a, const Try& b) { return worse(b, a); });
    waiting.least = nth->rank;
    dropped_ = std::max(dropped_, waiting.least);
    waiting.tries.resize(room);
  }

  /// Lives through the most promising tries of a node until no other can rank among the best, and
  /// keeps those, not too many with the same two last stands.
  std::vector<int> live_through(std::vector<Try>& here, std::size_t node) {
    std::make_heap(here.begin(), here.end(), worse);
    std::vector<Ranked> lived;
    std::map<std::pair<catalogue::CropId, catalogue::CropId>, std::size_t> alike;
    const std::size_t each = varied_ ? std::max<std::size_t>(2, width_ / 6) : width_ * kLivedFor;
    double enough = kNothing;  // rank of the label that is the last to be kept, so far
    for (; !here.empty() && lived.size() < kLivedFor * width_; here.pop_back()) {
      if (enough >= here.front().rank) break;
      std::pop_heap(here.begin(), here.end(), worse);
      const Try& attempt = here.back();
      std::size_t& same = alike[last_two(attempt)];
      if (same >= each) {
        dropped_ = std::max(dropped_, attempt.rank);
        continue;
      }
      Label label;
      if (!live(attempt, label)) continue;
      const double rank = label.value + completion_->ahead(static_cast<int>(node), label.standing);
      if (rank <= floor_) continue;
      ++same;
      lived.push_back({rank, static_cast<int>(labels_.size())});
      labels_.push_back(std::move(label));
      if (lived.size() >= width_) enough = nth_rank(lived);
    }
    if (!here.empty()) dropped_ = std::max(dropped_, here.front().rank);
    return best_of(lived);
  }

  static bool worse(const Try& a, const Try& b) {
    if (a.rank != b.rank) return a.rank < b.rank;
    return std::pair(a.label, a.arc) > std::pair(b.label, b.arc);
  }

  /// The crops that will have stood here last.
  std::pair<catalogue::CropId, catalogue::CropId> last_two(const Try& attempt) const {
    const auto& recent = labels_[static_cast<std::size_t>(attempt.label)].state.recent;
    const int stand = beds_->graph().arcs()[static_cast<std::size_t>(attempt.arc)].stand;
    if (stand < 0) return {recent[0].crop, recent[1].crop};
    return {beds_->choices()[static_cast<std::size_t>(stand)].stand.spec.crop, recent[0].crop};
  }

  struct Ranked {
    double rank;
    int label;
  };

  double nth_rank(std::vector<Ranked>& lived) const {
    const auto nth = lived.begin() + static_cast<std::ptrdiff_t>(width_) - 1;
    std::nth_element(lived.begin(), nth, lived.end(),
                     [](const Ranked& a, const Ranked& b) { return a.rank > b.rank; });
    return nth->rank;
  }

  std::vector<int> best_of(std::vector<Ranked>& lived) {
    std::sort(lived.begin(), lived.end(), [](const Ranked& a, const Ranked& b) {
      return a.rank != b.rank ? a.rank > b.rank : a.label < b.label;
    });
    std::vector<int> best;
    for (const Ranked& one : lived) {
      if (best.size() < width_) {
        best.push_back(one.label);
      } else {
        dropped_ = std::max(dropped_, one.rank);
      }
    }
    return best;
  }

  /// False where a rule refuses the stand.
  bool live(const Try& attempt, Label& next) {
    const Label& from = labels_[static_cast<std::size_t>(attempt.label)];
    const graph::Arc& arc = beds_->graph().arcs()[static_cast<std::size_t>(attempt.arc)];
    next.costs = from.costs;
    // Rules speak before the state is copied.
    if (arc.stand >= 0 && !may_enter(from.state, arc, next.costs)) return false;
    next.state = from.state;
    const ledger::StandOutcome outcome =
        arc.stand < 0
            ? beds_->ledger->idle(next.state, arc.to)
            : beds_->ledger->advance(next.state,
                                     beds_->choices()[static_cast<std::size_t>(arc.stand)].stand);
    objective_->charge_flows(outcome, beds_->area_m2, next.costs);
    next.value = from.value + (*profit_)[static_cast<std::size_t>(attempt.arc)] -
                 (cost_of(next.costs) - cost_of(from.costs));
    next.standing = completion_->relaxed().standing(next.state);
    next.before = attempt.label;
    next.choice = arc.stand;
    return true;
  }

  bool may_enter(const ledger::BedState& before, const graph::Arc& arc, Value& costs) {
    const Choice& choice = beds_->choices()[static_cast<std::size_t>(arc.stand)];
    costs.warnings += choice.fixed.warnings;
    costs.changes += choice.fixed.changes;
    if (arc.fixed) return true;  // decided already: told by the checker, not priced
    breaches_.clear();
    rules::judge_before({*beds_->ledger, before, choice.stand, beds_->clubroot_seen}, breaches_);
    if (!objective_->charge_breaches(breaches_, choice.worth, costs)) return false;
    objective_->charge_disease(before, choice.stand, choice.worth, costs);
    return true;
  }

  Path path_of(int place) const {
    Path path;
    path.costs = labels_[static_cast<std::size_t>(place)].costs;
    path.priced = labels_[static_cast<std::size_t>(place)].value;
    std::map<int, double> hours;
    for (int step = place; step >= 0; step = labels_[static_cast<std::size_t>(step)].before) {
      const int choice = labels_[static_cast<std::size_t>(step)].choice;
      if (choice < 0) continue;
      path.choices.push_back(choice);
      const Choice& taken = beds_->choices()[static_cast<std::size_t>(choice)];
      add_supply(path.supply, taken.supply);
      for (const auto& [week, spent] : taken.hours) hours[week] += spent;
    }
    std::reverse(path.choices.begin(), path.choices.end());
    path.hours.assign(hours.begin(), hours.end());
    return path;
  }

  const BedClass* beds_;
  const Objective* objective_;
  const Completion* completion_;
  std::size_t width_;
  bool varied_;
  double floor_;  ///< what is known to be earned: less is of no use
  const std::vector<double>* profit_;
  Week first_;
  std::size_t end_ = 0;
  std::vector<Waiting> waiting_;  ///< by the node where the tries end
  std::vector<double> fees_;      ///< of the label that grows
  std::deque<Label> labels_;
  rules::Breaches breaches_;
  double dropped_ = kNothing;  ///< greatest rank of a label that had to go
};

}  // namespace

double profit_of(const Choice& choice, const Prices& prices) {
  double profit = 0.0;
  for (const auto& [row, m2] : choice.supply) {
    const auto place = static_cast<std::size_t>(row);
    const double paid = prices.cap.empty() ? m2 : std::min(m2, prices.cap[place]);
    profit += prices.supply[place] * paid;
  }
  if (!choice.supply.empty()) {
    for (const auto& [rounding, price] : prices.roundings) {
      profit += price * rounding.counted(choice.supply);
    }
  }
  if (prices.work.empty()) return profit;
  for (const auto& [week, hours] : choice.hours) {
    profit -= prices.work[static_cast<std::size_t>(week)] * hours;
  }
  return profit;
}

std::vector<double> arc_profits(const BedClass& beds, const Prices& prices) {
  std::vector<double> of_choice;
  of_choice.reserve(beds.choices().size());
  for (const Choice& choice : beds.choices()) of_choice.push_back(profit_of(choice, prices));
  std::vector<double> profits;
  profits.reserve(beds.graph().arcs().size());
  for (const graph::Arc& arc : beds.graph().arcs()) {
    profits.push_back(arc.stand >= 0 ? of_choice[static_cast<std::size_t>(arc.stand)] : 0.0);
  }
  return profits;
}

Found search_paths(const BedClass& beds, const Objective& objective,
                   const std::vector<double>& profits, Completion& completion,
                   const Effort& effort) {
  completion.solve(profits, effort.steps, effort.known);
  return Search(beds, objective, profits, completion, effort).run(effort.paths);
}

}  // namespace aftercrop::sequencer
