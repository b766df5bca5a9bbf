#include "paths.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "charges.h"

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr int kIdle = -1;

class Follower {
 public:
  Follower(const Ground& ground, const Relaxation& relaxation, double claimed,
           const std::function<bool()>& out_of_time)
      : ground_(ground), relaxation_(relaxation), limit_(claimed), out_of_time_(out_of_time) {}

  Followed run() {
    found_.finished = follow(ground_.start, 0.0) && !found_.above;
    return std::move(found_);
  }

 private:
  struct Step {
    double rank = 0.0;  ///< nothing that begins so earns more
    int option = kIdle;
  };

  /// False where it had to stop.
  bool follow(const ledger::BedState& state, double earned) {
    if (ground_.node(state.week) >= static_cast<std::size_t>(ground_.weeks())) return end(earned);
    if ((++found_.beginnings & 255) == 0 && out_of_time_()) return false;
    for (const Step& step : steps(state, earned)) {
      ledger::BedState next = state;
      const auto gain = step.option == kIdle ? rest(next) : take(next, step.option);
      if (!gain) continue;
      const double now = earned + *gain;
      if (now + relaxation_.ahead(next) <= limit_) continue;
      taken_.push_back(step.option);
      const bool on = follow(next, now);
      taken_.pop_back();
      if (!on) return false;
    }
    return true;
  }

  /// What may follow and still lead above the limit, best first.
  [[nodiscard]] std::vector<Step> steps(const ledger::BedState& state, double earned) const {
    std::vector<Step> steps;
    const std::size_t node = ground_.node(state.week);
    if (ground_.may_rest[node] != 0) steps.push_back({earned + relaxation_.ahead(state), kIdle});
    for (const std::size_t option : ground_.leaving[node]) {
      const double rank = earned + relaxation_.ahead_with(state, option);
      if (rank > limit_) steps.push_back({rank, static_cast<int>(option)});
    }
    std::stable_sort(steps.begin(), steps.end(),
                     [](const Step& a, const Step& b) { return a.rank > b.rank; });
    return steps;
  }

  std::optional<double> rest(ledger::BedState& state) const {
    const auto outcome = ground_.ledger->idle(state, state.week + Weeks(1));
    const double bare = bare_week_cost(state, ground_.ledger->garden()) * ground_.area_m2;
    return -(flow_costs(outcome) + bare);
  }

  /// Empty where a required rule refuses the stand.
  std::optional<double> take(ledger::BedState& state, int place) const {
    const Option& option = ground_.options[static_cast<std::size_t>(place)];
    Terms costs = option.fixed;
    if (!option.decided) {
      rules::Breaches breaches;
      rules::judge_before({*ground_.ledger, state, option.stand, ground_.covers_bind}, breaches);
      const garden::Garden& garden = ground_.ledger->garden();
      if (!charge_breaches(breaches, garden, option.worth, costs)) return {};
      charge_disease(*ground_.ledger, state, option.stand, option.worth, costs);
    }
    const auto outcome = ground_.ledger->advance(state, option.stand);
    return option.profit - costs.costs() - flow_costs(outcome);
  }

  [[nodiscard]] double flow_costs(const ledger::StandOutcome& outcome) const {
    const garden::Costs& prices = ground_.ledger->garden().costs;
    return (prices.nitrogen_per_kg * outcome.flows.bought +
            prices.leached_per_kg * outcome.flows.leached) *
           ground_.area_m2 / kSquareMetresPerHa;
  }

  bool end(double earned) {
    if (!found_.best || earned > *found_.best) found_.best = earned;
    if (earned <= limit_) return true;
    found_.above = earned;
    for (const int place : taken_) {
      if (place == kIdle) continue;
      const ledger::StandSpec& spec = ground_.options[static_cast<std::size_t>(place)].stand.spec;
      found_.stands.push_back(fmt::format(
          "{} {} to {}", ground_.ledger->catalogue().crop(spec.crop).id,
          calendar::monday(spec.weeks.first).text(), calendar::monday(spec.weeks.past).text()));
    }
    return false;
  }

  const Ground& ground_;
  const Relaxation& relaxation_;
  double limit_;
  const std::function<bool()>& out_of_time_;
  std::vector<int> taken_;
  Followed found_;
};

}  // namespace

double slack(double value) { return 1e-6 * (1.0 + std::abs(value)); }

Followed follow_paths(const Ground& ground, const Relaxation& relaxation, double claimed,
                      const std::function<bool()>& out_of_time) {
  return Follower(ground, relaxation, claimed + slack(claimed), out_of_time).run();
}

}  // namespace aftercrop::verifier
