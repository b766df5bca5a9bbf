#include "aftercrop/sequencer/sequence.h"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "sequencer/bound.h"
#include "sequencer/descent.h"
#include "sequencer/dive.h"
#include "sequencer/earlier.h"
#include "sequencer/report.h"
#include "sequencer/shake.h"

namespace aftercrop::sequencer {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int kWidths[] = {8, 16, 32};  // labels a week, from quick to careful
constexpr int kRepairWidths[] = {16, 48};
constexpr std::size_t kPathsAClass = 4;
constexpr int kPriceSteps = 12;  // subgradient steps of the multipliers in a price round
constexpr int kBoundSteps = 60;  // and at the prices of the descent
constexpr Effort kFirstEffort = {2, 1, 0};
constexpr Effort kFillEffort = {8, 1, 4};
constexpr int kDescentSteps = 300;
constexpr int kRoundings = 12;     // rounds of rows for whole beds
constexpr int kWidestBound = 512;  // only where the bound lies far above
constexpr int kBoundWidths[] = {8, 64, kWidestBound};
constexpr int kVariedWidth = 32;     // wider searches keep what ranks best, alike or not
constexpr double kPriceShare = 0.6;  // first prices, of the wants' worth
constexpr double kProfit = 1e-5;     // reduced profit that makes a column worth adding
constexpr double kStill = 1e-4;      // growth of the master's value that counts as standing still
constexpr std::size_t kSample = 80;  // classes that the first prices of a large garden come from
constexpr double kPriceTimeShare = 0.25;  // of the time limit, then the bound
constexpr double kBoundTimeShare = 0.35;  // then whole paths
constexpr double kFarAbove = 0.01;        // of the bound over the master's value
constexpr int kShakesInVain = 60;         // batches without gain that end the search
constexpr std::size_t kFewBeds = 16;      // whose dives are quick enough for many of them
constexpr int kShakesBefore = 40;         // batches without gain before the first of them
constexpr int kShakesAnew = 8;            // and after each
constexpr int kDivesInVain = 6;
constexpr DiveOptions kOtherDive = {16, 3, 0.15, 0.4};

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
        pricing_(classes_, objective_),
        master_(objective_, classes_, all_beds(1.0, 1)),
        dive_(master_, pricing_, classes_, objective_, [this] { return enough(); }),
        shake_(pricing_, objective_) {
    pricing_.give_up_when([this] { return late(1.0); });
  }

  Outcome run() {
    // a first plan, bed by bed; prices -> paths -> prices ... until the prices stand, of a large
    // garden those of a sample of its beds; then dive for whole paths; then open some beds and fill
    // them again, until the gap or the time is reached; of few beds the same from other dives
    Assignment plan = fill(classes_, pricing_, objective_, {}, kFirstEffort);
    better_of(plan, earlier_assignment(*garden_, classes_, objective_));
    say("first plan", plan);
    const bool large = classes_.size() > 2 * kSample;
    if (large) {
      price_sample();
    } else {
      for (std::size_t bed = 0; bed < plan.paths.size(); ++bed) {
        // A bed for which nothing was found has no costs yet: it is no column.
        if (!plan.paths[bed].choices.empty()) master_.add({plan.bed_class[bed], plan.paths[bed]});
      }
      start_columns(master_, {});
      price_columns(master_, {}, std::size(kWidths));
      round_wants();
      ceiling_ = master_.value();
    }
    tighten_bound();
    if (!large) price_again();
    if (!enough()) {
      // Worth more once repaired than a first plan that is ahead of it before.
      Assignment other = large ? fill(classes_, pricing_, objective_, best_prices_, kFillEffort)
                               : dive_.from_scratch({}, draw_);
      say("whole paths", other);
      repair_all(other);
      better_of(plan, std::move(other));
    }
    repair_all(plan);
    const bool few = plan.paths.size() <= kFewBeds;
    shake_all(plan, few ? kShakesBefore : kShakesInVain);
    if (few) dive_again(plan);
    if (stopped_by_.empty()) stopped_by_ = near_enough(plan) ? "gap" : "nothing better found";
    return finish(plan);
  }

 private:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(Clock::now() - began_).count();
  }

  [[nodiscard]] bool cramped() {
    if (!stop_->cramped || !stop_->cramped()) return false;
    trimmed_ = true;
    return true;
  }

  [[nodiscard]] bool interrupted() const { return stop_->interrupted && stop_->interrupted(); }
  [[nodiscard]] bool late(double share) const {
    return interrupted() || seconds() >= share * stop_->within_seconds;
  }

  [[nodiscard]] bool enough(double share = 1.0) {
    if (!late(share)) return false;
    if (interrupted()) {
      stopped_by_ = "interrupt";
    } else if (share >= 1.0) {
      stopped_by_ = "time";
    }
    return true;
  }

  static void better_of(Assignment& plan, std::optional<Assignment> other) {
    if (other && other->value >= plan.value) plan = std::move(*other);
  }

  /// Beds of every `stride`-th class, each counted so many times.
  [[nodiscard]] std::vector<double> all_beds(double times, std::size_t stride) const {
    std::vector<double> beds(classes_.size(), 0.0);
    for (std::size_t g = 0; g < beds.size(); g += stride) {
      beds[g] = times * static_cast<double>(classes_[g].beds.size());
    }
    return beds;
  }

  /// Prices of a large garden come quicker from a part of its classes that stands for the whole.
  void price_sample() {
    const std::size_t stride = classes_.size() / kSample;
    double all = 0.0;
    double some = 0.0;
    std::vector<char> asked(classes_.size(), 0);
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      const double land = classes_[g].area_m2 * static_cast<double>(classes_[g].beds.size());
      all += land;
      if (g % stride == 0) some += land;
      asked[g] = g % stride == 0 ? 1 : 0;
    }
    Master sample(objective_, classes_, all_beds(all / some, stride));
    start_columns(sample, asked);
    price_columns(sample, asked, 1);
    ceiling_ = sample.value();
    const Prices prices = sample.prices();
    keep_bound(prices, pricing_.search_all(prices, {kWidths[0], 1, kPriceSteps}));
  }

  [[nodiscard]] Prices first_prices() const {
    Prices prices;
    prices.supply.assign(objective_.supplies().size(), 0.0);
    for (const WantRow& want : objective_.wants()) {
      for (const int supply : want.supplies) {
        double& price = prices.supply[static_cast<std::size_t>(supply)];
        price = std::max(price, kPriceShare * want.worth_per_m2);
      }
    }
    return prices;
  }

  void start_columns(Master& master, const std::vector<char>& asked) {
    Prices nothing;
    nothing.supply.assign(objective_.supplies().size(), 0.0);
    take(master, pricing_.search_all(nothing, {4, 1, 0}, {}, asked), {});
    if (enough()) return;
    const Prices prices = first_prices();
    take(master, pricing_.search_all(prices, {kWidths[0], kPathsAClass, kPriceSteps}, {}, asked),
         {});
  }

  /// Bounds and fees go to the certificate on a fixed scale, bounds rounded up.
  void keep_bound(const Prices& prices, const std::vector<Found>& found) {
    if (found.empty()) return;
    constexpr double kScale = 1 << 30;
    std::vector<double> class_bounds;
    for (const Found& one : found) class_bounds.push_back(std::ceil(one.bound * kScale) / kScale);
    const double bound = upper_bound(classes_, objective_, prices, class_bounds);
    if (bound_ && bound >= *bound_) return;
    bound_ = bound;
    best_prices_ = prices;
    certificate_ = {};
    certificate_.work = prices.work;
    certificate_.bound = bound;
    for (std::size_t s = 0; s < prices.supply.size(); ++s) {
      const SupplyRow& row = objective_.supplies()[s];
      certificate_.supplies.push_back({row.crop, row.weeks, prices.supply[s]});
    }
    for (const auto& [rounding, price] : prices.roundings) {
      if (price == 0.0) continue;
      const std::size_t want = objective_.wants()[rounding.want].want;
      certificate_.roundings.push_back({want, rounding.unit, price});
    }
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      std::vector<Certificate::Fee> fees = pricing_.completion(g).fees();
      for (Certificate::Fee& fee : fees) fee.fee = std::round(fee.fee * kScale) / kScale;
      std::erase_if(fees, [](const Certificate::Fee& fee) { return fee.fee == 0.0; });
      certificate_.classes.push_back({classes_[g].beds, std::move(fees), class_bounds[g]});
    }
  }

  /// Adds what pays more than is known (empty = all); true if anything did.
  static bool take(Master& master, std::vector<Found> found, const std::vector<double>& known) {
    bool added = false;
    for (std::size_t g = 0; g < found.size(); ++g) {
      for (Path& path : found[g].paths) {
        if (!known.empty() && path.priced <= known[g] + kProfit) continue;
        added = master.add({g, std::move(path)}).second || added;
      }
    }
    return added;
  }

  /// `asked` = the classes that the master has beds of; empty = all.
  void price_columns(Master& master, const std::vector<char>& asked, std::size_t widths) {
    std::size_t width = 0;
    double last = -1e300;
    for (int round = 0; round < stop_->max_rounds; ++round) {
      rounds_ = round + 1;
      if (!master.solve() || enough(kPriceTimeShare) || cramped()) break;
      const Prices prices = master.prices();
      say("prices", master.value());
      const std::vector<double> known = master.class_prices();
      std::vector<Found> found =
          pricing_.search_all(prices, {kWidths[width], kPathsAClass, kPriceSteps}, known, asked);
      if (asked.empty()) keep_bound(prices, found);
      const bool added = take(master, std::move(found), known);
      const bool still = master.value() < last + kStill * std::abs(last);
      last = master.value();
      if (added && !still) continue;
      if (++width == widths) break;
    }
    (void)master.solve();
  }

  /// Rows that hold for whole beds, prices again, more such rows ...
  void round_wants() {
    for (int round = 0; round < kRoundings && !enough(kPriceTimeShare); ++round) {
      const double before = master_.value();
      if (!master_.round_wants()) break;
      price_columns(master_, {}, std::size(kWidths));
      if (master_.value() > before - kStill * std::abs(before)) {
        master_.drop_last_roundings();
        (void)master_.solve();
        break;
      }
    }
  }

  /// Where there was no time for prices: those that a garden begins with, and no paths.
  void rough_bound() {
    const Prices prices = first_prices();
    std::vector<Found> found(classes_.size());
    const std::vector<Pricing::Relaxation> relaxed = pricing_.relax_all(prices, 0);
    for (std::size_t g = 0; g < found.size(); ++g) found[g].bound = relaxed[g].bound;
    keep_bound(prices, found);
  }

  /// The master's prices jump about; from the best of them a descent looks for a lower bound, and
  /// a careful search at the prices that it finds lowers it further.
  void tighten_bound() {
    if (enough()) {
      if (!bound_) rough_bound();
      return;
    }
    Descent descent(classes_, objective_, pricing_);
    const double target = ceiling_;
    const auto more = [this] { return !enough(kBoundTimeShare); };
    const Prices prices =
        descent.run({best_prices_, master_.prices()}, kDescentSteps, target, more);
    std::vector<Found> found;
    double took = 0.0;  // by a label of width, of the search before
    for (const int width : kBoundWidths) {
      const bool fits = seconds() + took * width < kBoundTimeShare * stop_->within_seconds;
      if (!found.empty() && (enough(kBoundTimeShare) || !fits || cramped())) break;
      if (width == kWidestBound && !far_above()) break;
      const double before = seconds();
      Effort effort{width, kPathsAClass, found.empty() ? kBoundSteps : 0};
      effort.varied = width < kVariedWidth;
      found = pricing_.search_all(prices, effort);
      if (found.empty()) break;
      keep_bound(prices, found);
      take(master_, std::move(found), {});
      took = (seconds() - before) / width;
      say("bound", ceiling_);
    }
    (void)master_.solve();
  }

  /// Where the bound lies far above what fractions of beds are worth: prices and bound once more,
  /// from the paths that the last search for the bound has found.
  void price_again() {
    for (int round = 0; round < stop_->max_rounds && far_above() && !enough(kBoundTimeShare);
         ++round) {
      const double before = bound_.value_or(0.0);
      price_columns(master_, {}, std::size(kWidths));
      round_wants();
      ceiling_ = master_.value();
      tighten_bound();
      if (bound_.value_or(0.0) > before - kStill * before) break;
    }
  }

  [[nodiscard]] bool far_above() const {
    return bound_ && *bound_ - ceiling_ > kFarAbove * std::abs(*bound_);
  }

  void repair_all(Assignment& plan) {
    for (const int width : kRepairWidths) {
      if (width > kRepairWidths[0] && cramped()) break;
      while (!done(plan) &&
             repair(plan, pricing_, objective_, width, [this] { return enough(); })) {
        say("repair", plan);
      }
    }
  }

  void shake_all(Assignment& plan, int most_in_vain) {
    for (int round = 0, in_vain = 0; round < stop_->max_rounds && in_vain < most_in_vain; ++round) {
      if (done(plan)) break;
      const bool better = shake_.round(plan);
      in_vain = better ? 0 : in_vain + 1;
      if (better) say("again", plan);
    }
  }

  /// Fractions in another order lead to other plans.
  void dive_again(Assignment& plan) {
    for (int in_vain = 0; in_vain < std::min(kDivesInVain, stop_->max_rounds) && !done(plan);
         ++in_vain) {
      Assignment other = dive_.from_scratch(kOtherDive, draw_);
      repair_all(other);
      shake_all(other, kShakesAnew);
      if (other.value <= plan.value) continue;
      in_vain = -1;
      plan = std::move(other);
    }
  }

  [[nodiscard]] bool near_enough(const Assignment& plan) const {
    return bound_ && *bound_ - plan.value <= stop_->gap * std::abs(*bound_);
  }

  [[nodiscard]] bool done(const Assignment& plan) { return enough() || near_enough(plan); }

  void say(const char* step, double value, std::vector<garden::WantMet> wants = {}) const {
    if (*tell_) (*tell_)({seconds(), value, bound_, std::move(wants), step});
  }

  void say(const char* step, const Assignment& plan) const {
    if (*tell_) say(step, plan.value, wants_met_by(plan, *garden_, objective_));
  }

  Outcome finish(const Assignment& plan) {
    Outcome outcome = report(plan, *garden_, classes_, objective_);
    outcome.bound = bound_;
    outcome.certificate = certificate_;
    outcome.stopped_by = stopped_by_;
    outcome.trimmed = trimmed_;
    outcome.counters.classes = static_cast<int>(classes_.size());
    outcome.counters.columns = static_cast<int>(master_.columns().size());
    outcome.counters.rounds = rounds_;
    outcome.counters.labels = pricing_.labels();
    for (const BedClass& beds : classes_) {
      outcome.counters.arcs += static_cast<int>(beds.graph().arcs().size());
    }
    outcome.seconds = seconds();
    return outcome;
  }

  const garden::Garden* garden_;
  const Stop* stop_;
  const std::function<void(const Progress&)>* tell_;
  Clock::time_point began_;
  Objective objective_;
  std::vector<BedClass> classes_;
  Pricing pricing_;
  Master master_;
  Dive dive_;
  Shake shake_;
  Draw draw_{20270301};
  std::optional<double> bound_;
  Prices best_prices_;
  Certificate certificate_;
  int rounds_ = 0;
  double ceiling_ = 0.0;  ///< what plans in fractions of beds are worth, about
  std::string stopped_by_;
  bool trimmed_ = false;
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
