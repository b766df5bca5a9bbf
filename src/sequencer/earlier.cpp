#include "sequencer/earlier.h"

#include <algorithm>
#include <map>

namespace aftercrop::sequencer {
namespace {

/// Choices of the class that are decided, or that the earlier plan had: in order of start.
std::vector<int> stands_of(const BedClass& beds) {
  std::vector<int> stands;
  for (std::size_t i = 0; i < beds.choices().size(); ++i) {
    if (beds.choices()[i].decided != nullptr || beds.choices()[i].earlier) {
      stands.push_back(static_cast<int>(i));
    }
  }
  std::stable_sort(stands.begin(), stands.end(), [&](int a, int b) {
    return beds.choices()[static_cast<std::size_t>(a)].stand.spec.weeks.first <
           beds.choices()[static_cast<std::size_t>(b)].stand.spec.weeks.first;
  });
  return stands;
}

/// Lives through them from the start; what a required rule now refuses is left out.
class Follower {
 public:
  Follower(const BedClass& beds, const Objective& objective)
      : beds_(&beds), objective_(&objective), state_(beds.start) {}

  Path run(calendar::Week end) {
    const std::vector<int> stands = stands_of(*beds_);
    for (std::size_t i = 0; i < stands.size(); ++i) {
      if (fits_before_decided(stands, i)) enter(stands[i]);
    }
    if (state_.week < end) idle(end);
    path_.hours.assign(hours_.begin(), hours_.end());
    return std::move(path_);
  }

 private:
  /// What is decided has the right of way.
  [[nodiscard]] bool fits_before_decided(const std::vector<int>& stands, std::size_t at) const {
    const Choice& choice = choice_of(stands[at]);
    if (choice.decided != nullptr) return true;
    return std::none_of(stands.begin(), stands.end(), [&](int other) {
      const Choice& taken = choice_of(other);
      return taken.decided != nullptr &&
             taken.stand.spec.weeks.first < choice.stand.spec.weeks.past &&
             choice.stand.spec.weeks.first < taken.stand.spec.weeks.past;
    });
  }

  [[nodiscard]] const Choice& choice_of(int at) const {
    return beds_->choices()[static_cast<std::size_t>(at)];
  }

  void idle(calendar::Week until) {
    objective_->charge_flows(beds_->ledger->idle(state_, until), beds_->area_m2, path_.costs);
  }

  void enter(int at) {
    const Choice& choice = choice_of(at);
    const calendar::Week first = choice.stand.spec.weeks.first;
    if (first < state_.week || first >= beds_->graph().weeks().past) return;
    const Follower before = *this;
    idle(first);
    Value costs = path_.costs;
    costs.warnings += choice.fixed.warnings;
    costs.changes += choice.fixed.changes;
    if (choice.decided == nullptr) {
      rules::Breaches breaches;
      rules::judge_before({*beds_->ledger, state_, choice.stand, beds_->clubroot_seen}, breaches);
      if (!objective_->charge_breaches(breaches, choice.worth, costs)) {
        *this = before;
        return;
      }
      objective_->charge_disease(state_, choice.stand, choice.worth, costs);
    }
    path_.costs = costs;
    objective_->charge_flows(beds_->ledger->advance(state_, choice.stand), beds_->area_m2,
                             path_.costs);
    path_.choices.push_back(at);
    add_supply(path_.supply, choice.supply);
    for (const auto& [week, spent] : choice.hours) hours_[week] += spent;
  }

  const BedClass* beds_;
  const Objective* objective_;
  ledger::BedState state_;
  Path path_;
  std::map<int, double> hours_;
};

}  // namespace

std::optional<Assignment> earlier_assignment(const garden::Garden& garden,
                                             const std::vector<BedClass>& classes,
                                             const Objective& objective) {
  if (garden.earlier.empty()) return {};
  Assignment plan;
  plan.bed_class.assign(garden.beds.size(), 0);
  plan.paths.resize(garden.beds.size());
  for (std::size_t g = 0; g < classes.size(); ++g) {
    const Path path = Follower(classes[g], objective).run(garden.seasons.past);
    for (const garden::BedId bed : classes[g].beds) {
      plan.bed_class[bed.place()] = g;
      plan.paths[bed.place()] = path;
    }
  }
  plan.value = value_of(plan, objective).total();
  return plan;
}

}  // namespace aftercrop::sequencer
