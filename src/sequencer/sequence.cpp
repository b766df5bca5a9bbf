#include "aftercrop/sequencer/sequence.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <thread>

#include "aftercrop/calendar/week.h"
#include "sequencer/bound.h"
#include "sequencer/earlier.h"
#include "sequencer/master.h"
#include "sequencer/reasons.h"
#include "sequencer/repair.h"

namespace aftercrop::sequencer {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int kWidths[] = {8, 16, 32};  // labels a week, from quick to careful
constexpr int kRepairWidths[] = {16, 48};
constexpr int kShakeWidth = 16;
constexpr int kShakesInVain = 120;  // shakes without gain that end the search
constexpr std::size_t kPathsAClass = 4;
constexpr double kPriceShare = 0.6;  // first prices, of the wants' worth
constexpr double kProfit = 1e-5;     // reduced profit that makes a column worth adding
constexpr double kMet = 0.95;  // our choice, as the checker has it: nearer than this counts as met
constexpr double kPriceTimeShare = 0.35;  // of the time limit, then whole paths and repair

class Driver {
 public:
  Driver(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
         const ledger::SiteClimates& climates, const Stop& stop,
         const std::function<void(const Progress&)>& tell)
      : garden_(&garden),
        stop_(&stop),
        tell_(&tell),
        began_(Clock::now()),
        objective_(garden, catalogue),
        classes_(bed_classes(garden, catalogue, climates, objective_)),
        master_(objective_, classes_) {}

  Outcome run() {
    // prices -> paths -> prices ... until the prices stand; then whole paths; then repair
    start_columns();
    price_columns();
    Assignment plan = whole_paths();
    const auto earlier = earlier_assignment(*garden_, classes_, objective_);
    if (earlier && earlier->value >= plan.value) plan = *earlier;
    polish(plan);
    return report(plan);
  }

 private:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(Clock::now() - began_).count();
  }

  [[nodiscard]] bool enough(double share = 1.0) {
    if (stop_->interrupted && stop_->interrupted()) {
      stopped_by_ = "interrupt";
      return true;
    }
    if (seconds() < share * stop_->within_seconds) return false;
    stopped_by_ = "time";
    return true;
  }

  /// Searches every class at the same prices, two at a time; results by class, so that the order
  /// of arrival changes nothing.
  std::vector<std::vector<Path>> search_all(const Prices& prices, int width) {
    std::vector<std::vector<Path>> found(classes_.size());
    std::vector<long> labels(classes_.size(), 0);
    std::atomic<std::size_t> next{0};
    const auto work = [&] {
      for (std::size_t g = next++; g < classes_.size(); g = next++) {
        found[g] = search_paths(classes_[g], objective_, prices, width, kPathsAClass, &labels[g]);
      }
    };
    {
      const std::jthread other(work);
      work();
    }
    for (const long made : labels) counters_.labels += made;
    return found;
  }

  void start_columns() {
    Prices prices;
    prices.supply.assign(objective_.supplies().size(), 0.0);
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      long labels = 0;
      for (Path& path : search_paths(classes_[g], objective_, prices, 4, 1, &labels)) {
        master_.add({g, std::move(path)});
      }
    }
    for (const WantRow& want : objective_.wants()) {
      for (const int supply : want.supplies) {
        double& price = prices.supply[static_cast<std::size_t>(supply)];
        price = std::max(price, kPriceShare * want.worth_per_m2);
      }
    }
    take(search_all(prices, kWidths[0]), false);
    keep_bound(prices);
  }

  void keep_bound(const Prices& prices) {
    const double bound = upper_bound(classes_, objective_, prices);
    if (!bound_ || bound < *bound_) bound_ = bound;
  }

  /// Adds what pays at the present duals; true if anything did.
  bool take(std::vector<std::vector<Path>> found, bool must_pay) {
    bool added = false;
    for (std::size_t g = 0; g < found.size(); ++g) {
      const double bed_price = must_pay ? master_.class_price(g) : 0.0;
      for (Path& path : found[g]) {
        if (must_pay && path.priced <= bed_price + kProfit) continue;
        added = master_.add({g, std::move(path)}) || added;
      }
    }
    return added;
  }

  void price_columns() {
    std::size_t width = 0;
    double last = -1e300;
    for (int round = 0; round < stop_->max_rounds; ++round) {
      counters_.rounds = round + 1;
      if (!master_.solve() || enough(kPriceTimeShare)) break;
      const Prices prices = master_.prices();
      keep_bound(prices);
      say("prices", master_.value());
      const bool added = take(search_all(prices, kWidths[width]), true);
      const bool slow = master_.value() < last + 0.001 * std::abs(last);
      last = master_.value();
      if (added && !slow) continue;
      if (width + 1 < std::size(kWidths)) {
        ++width;
      } else {
        break;
      }
    }
    (void)master_.solve();
  }

  /// Fixes the largest fractional column again and again until every bed has a whole path.
  Assignment whole_paths() {
    std::vector<int> left;
    for (const BedClass& beds : classes_) left.push_back(static_cast<int>(beds.beds.size()));
    std::vector<int> fixed(master_.columns().size(), 0);
    int open = 0;
    for (const int beds : left) open += beds;
    while (open > 0) {
      const std::vector<double> use = master_.use();
      std::size_t best = use.size();
      double most = -1.0;
      for (std::size_t i = 0; i < use.size(); ++i) {
        const double rest = use[i] - fixed[i];
        if (left[master_.columns()[i].bed_class] <= 0 || rest <= most) continue;
        best = i;
        most = rest;
      }
      if (best == use.size()) break;
      int& beds_left = left[master_.columns()[best].bed_class];
      const int beds = std::clamp(static_cast<int>(std::floor(most + 1e-6)), 1, beds_left);
      fixed[best] += beds;
      beds_left -= beds;
      open -= beds;
      master_.fix(best, fixed[best]);
      if (!master_.solve()) break;
    }
    return assign(fixed);
  }

  Assignment assign(const std::vector<int>& fixed) {
    Assignment plan;
    plan.bed_class.assign(garden_->beds.size(), 0);
    plan.paths.resize(garden_->beds.size());
    std::vector<std::size_t> next(classes_.size(), 0);
    const auto give = [&](std::size_t g, const Path& path) {
      const garden::BedId bed = classes_[g].beds[next[g]++];
      plan.bed_class[bed.place()] = g;
      plan.paths[bed.place()] = path;
    };
    for (std::size_t i = 0; i < fixed.size(); ++i) {
      const Column& column = master_.columns()[i];
      for (int k = 0; k < fixed[i]; ++k) give(column.bed_class, column.path);
    }
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      while (next[g] < classes_[g].beds.size()) give(g, first_column(g));
    }
    plan.value = value_of(plan, objective_).total();
    return plan;
  }

  [[nodiscard]] Path first_column(std::size_t bed_class) const {
    for (const Column& column : master_.columns()) {
      if (column.bed_class == bed_class) return column.path;
    }
    Path idle;
    idle.supply.assign(objective_.supplies().size(), 0.0);
    return idle;
  }

  void polish(Assignment& plan) {
    say("whole paths", plan.value);
    for (const int width : kRepairWidths) {
      while (!done(plan) && repair_once(plan, width)) say("repair", plan.value);
    }
    Shaker shaker(plan.paths.size());
    for (int round = 0, in_vain = 0; round < stop_->max_rounds && in_vain < kShakesInVain;
         ++round) {
      if (done(plan)) break;
      const bool better =
          rebuild(plan, shaker.next(), classes_, objective_, kShakeWidth, &counters_.labels);
      in_vain = better ? 0 : in_vain + 1;
      if (better) say("repair", plan.value);
    }
    if (stopped_by_.empty()) {
      stopped_by_ = near_enough(plan) ? "gap" : "nothing better found";
    }
  }

  bool repair_once(Assignment& plan, int width) {
    return repair(plan, classes_, objective_, width, &counters_.labels,
                  [this] { return enough(); });
  }

  [[nodiscard]] bool near_enough(const Assignment& plan) const {
    return bound_ && *bound_ - plan.value <= stop_->gap * std::abs(*bound_);
  }

  [[nodiscard]] bool done(const Assignment& plan) { return enough() || near_enough(plan); }

  void say(const char* step, double value) const {
    if (!*tell_) return;
    Progress progress;
    progress.seconds = seconds();
    progress.value = value;
    progress.bound = bound_;
    progress.step = step;
    (*tell_)(progress);
  }

  [[nodiscard]] garden::Planting planting_of(const ledger::StandSpec& spec,
                                             garden::BedId bed) const {
    const catalogue::Catalogue& rows = classes_.front().ledger->catalogue();
    garden::Planting planting;
    planting.bed = bed;
    planting.crop = spec.crop;
    planting.from = calendar::monday(spec.weeks.first);
    planting.to = calendar::monday(spec.weeks.past);
    planting.ending = spec.ending;
    if (spec.harvest.first < spec.harvest.past) {
      planting.harvest = {calendar::monday(spec.harvest.first),
                          calendar::monday(spec.harvest.past)};
    }
    const catalogue::Crop& crop = rows.crop(spec.crop);
    const int plug_weeks = static_cast<int>(std::lround(crop.plug_weeks.typical));
    if (crop.start == catalogue::Start::Transplant && plug_weeks > 0) {
      planting.raised = planting.from.plus_days(-7 * plug_weeks);
    }
    return planting;
  }

  void write_plan(const Assignment& plan, Outcome& outcome) const {
    outcome.plan.name = garden_->name;
    for (std::size_t bed = 0; bed < plan.paths.size(); ++bed) {
      const BedClass& beds = classes_[plan.bed_class[bed]];
      for (const int choice : plan.paths[bed].choices) {
        const Choice& taken = beds.choices[static_cast<std::size_t>(choice)];
        if (taken.decided != nullptr) continue;
        outcome.plan.plantings.push_back(planting_of(taken.stand.spec, garden::BedId(bed)));
      }
    }
    for (const garden::Planting& planting : garden_->history) {
      if (garden::weeks_of(planting).past > garden_->seasons.first) {
        outcome.plan.plantings.push_back(planting);
      }
    }
    std::stable_sort(outcome.plan.plantings.begin(), outcome.plan.plantings.end(),
                     [](const auto& a, const auto& b) {
                       return std::pair(a.bed, a.from) < std::pair(b.bed, b.from);
                     });
  }

  /// Nitrogen of the finished plan, by folding every path once more.
  void sum_nitrogen(const Assignment& plan, Outcome& outcome) const {
    for (std::size_t bed = 0; bed < plan.paths.size(); ++bed) {
      const BedClass& beds = classes_[plan.bed_class[bed]];
      ledger::BedState state = beds.start;
      nitrogen::WeekFlows flows;
      for (const int choice : plan.paths[bed].choices) {
        const ledger::Stand& stand = beds.choices[static_cast<std::size_t>(choice)].stand;
        flows += beds.ledger->idle(state, stand.spec.weeks.first).flows;
        flows += beds.ledger->advance(state, stand).flows;
      }
      flows += beds.ledger->idle(state, garden_->seasons.past).flows;
      const double hectares = beds.area_m2 / 10000.0;
      outcome.bought_kg += flows.bought * hectares;
      outcome.leached_kg += flows.leached * hectares;
      outcome.fixed_kg += flows.fixed * hectares;
    }
  }

  Outcome report(const Assignment& plan) {
    Outcome outcome;
    outcome.value = value_of(plan, objective_);
    outcome.bound = bound_;
    outcome.stopped_by = stopped_by_;
    write_plan(plan, outcome);
    sum_nitrogen(plan, outcome);
    std::vector<double> delivered(objective_.supplies().size(), 0.0);
    for (const Path& path : plan.paths) {
      for (std::size_t s = 0; s < delivered.size(); ++s) delivered[s] += path.supply[s];
    }
    std::vector<double> met;
    (void)objective_.worth(delivered, &met);
    outcome.wants.resize(garden_->wants.size());
    for (const WantRow& want : objective_.wants()) {
      WantResult& result = outcome.wants[want.want];
      result.want = want.want;
      const double share = want.amount_m2 > 0.0 ? met[want.want] / want.amount_m2 : 1.0;
      result.met = garden_->wants[want.want].amount * std::min(1.0, share);
      if (share < kMet) result.why = reason_for(want, classes_, objective_);
    }
    counters_.classes = static_cast<int>(classes_.size());
    counters_.columns = static_cast<int>(master_.columns().size());
    for (const BedClass& beds : classes_) {
      counters_.arcs += static_cast<int>(beds.graph->arcs().size());
    }
    outcome.counters = counters_;
    outcome.seconds = seconds();
    return outcome;
  }

  const garden::Garden* garden_;
  const Stop* stop_;
  const std::function<void(const Progress&)>* tell_;
  Clock::time_point began_;
  Objective objective_;
  std::vector<BedClass> classes_;
  Master master_;
  Counters counters_;
  std::optional<double> bound_;
  std::string stopped_by_;
};

}  // namespace

std::optional<double> Outcome::gap() const {
  if (!bound || *bound <= 0.0) return {};
  return std::max(0.0, (*bound - value.total()) / *bound);
}

Outcome sequence(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const ledger::SiteClimates& climates, const Stop& stop,
                 const std::function<void(const Progress&)>& tell) {
  return Driver(garden, catalogue, climates, stop, tell).run();
}

}  // namespace aftercrop::sequencer
