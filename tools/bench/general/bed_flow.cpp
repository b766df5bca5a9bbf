#include <algorithm>

#include "bench/general/bed_rows.h"

namespace aftercrop::bench {

using calendar::Week;
using calendar::Weeks;
using garden::RuleId;
using garden::Setting;

BedRows::BedRows(const sequencer::BedClass& beds, const sequencer::Objective& objective,
                 Program& program)
    : beds_(&beds), objective_(&objective), program_(&program) {
  legume_setting_ = setting(RuleId::LegumeBeforeHeavyFeeder);
  judge_alone();
  add_flow();
  add_legume_age();
  add_waits();
  add_breaks();
  add_returns();
  add_bare_weeks();
}

Setting BedRows::setting(RuleId rule, int level) const {
  rules::Breach breach;
  breach.rule = rule;
  breach.level = level;
  return rules::setting_of(breach, beds_->ledger->garden().policy);
}

BedRows::Alone BedRows::alone(const sequencer::Choice& choice, const ledger::BedState& idle) const {
  Alone said;
  const rules::Occasion occasion{*beds_->ledger, idle, choice.stand, beds_->clubroot_seen};
  rules::Breaches breaches;
  if (choice.decided == nullptr) rules::judge_before(occasion, breaches);
  std::erase_if(breaches, [](const rules::Breach& one) {
    return one.rule == RuleId::LegumeBeforeHeavyFeeder;  // has rows of its own
  });
  sequencer::Value value = choice.fixed;
  said.possible = objective_->charge_breaches(breaches, choice.worth, value);
  if (choice.decided == nullptr) {
    objective_->charge_disease(idle, choice.stand, choice.worth, value);
  }
  ledger::BedState lived = idle;
  const ledger::StandOutcome outcome = beds_->ledger->advance(lived, choice.stand);
  objective_->charge_flows(outcome, beds_->area_m2, value);
  said.cost = -value.total();
  const int first = (choice.stand.spec.weeks.first - beds_->start.week).count();
  const int past = (choice.stand.spec.weeks.past - beds_->start.week).count();
  for (int week = first; week < past && week < static_cast<int>(idle_leached_.size()); ++week) {
    said.cost -= idle_leached_[static_cast<std::size_t>(week)];
  }
  return said;
}

void BedRows::judge_alone() {
  const int weeks = beds_->graph().weeks().length().count();
  std::vector<ledger::BedState> idle;
  ledger::BedState state = beds_->start;
  for (int week = 0; week < weeks; ++week) {
    idle.push_back(state);
    sequencer::Value value;
    ledger::StandOutcome outcome = beds_->ledger->idle(state, state.week + Weeks(1));
    outcome.bare_weeks = 0;  // bare weeks have rows of their own
    objective_->charge_flows(outcome, beds_->area_m2, value);
    idle_leached_.push_back(-value.total());
    unavoidable_ += idle_leached_.back();
  }
  const rules::Rule& legume = *rules::find_rule(RuleId::LegumeBeforeHeavyFeeder);
  for (const sequencer::Choice& choice : beds_->choices()) {
    const int first = (choice.stand.spec.weeks.first - beds_->start.week).count();
    if (first < 0 || first >= weeks) {
      alone_.push_back({false, false, 0.0});
      continue;
    }
    ledger::BedState there = idle[static_cast<std::size_t>(first)];
    alone_.push_back(alone(choice, there));
    // Asked as if nothing that helps had stood before: does the rule speak of this stand at all?
    there.recent[0].crop = there.recent[1].crop = choice.stand.spec.crop;
    there.recent[0].ending = there.recent[1].ending = catalogue::Ending::HarvestedPulled;
    rules::Breaches breaches;
    if (legume_setting_ != Setting::Off && choice.decided == nullptr) {
      legume.judge({*beds_->ledger, there, choice.stand, beds_->clubroot_seen}, breaches);
    }
    const ledger::BedState& known = idle[static_cast<std::size_t>(first)];
    const bool past_known = known.recent[1].crop.known() ||
                            (known.week - known.known_since).count() >= 52;  // as the rule has it
    alone_.back().needs_legume = !breaches.empty() && past_known;
  }
}

bool BedRows::credits(const ledger::PastStand& past) const {
  if (!past.crop.known()) return false;
  const rules::Rule& legume = *rules::find_rule(RuleId::LegumeBeforeHeavyFeeder);
  for (std::size_t i = 0; i < alone_.size(); ++i) {
    if (!alone_[i].needs_legume) continue;
    ledger::BedState state = beds_->start;
    state.week = past.weeks.past;
    state.known_since = past.weeks.past - Weeks(104);
    state.recent = {past, {}};
    rules::Breaches breaches;
    legume.judge({*beds_->ledger, state, beds_->choices()[i].stand, false}, breaches);
    return breaches.empty() ||
           rules::setting_of(breaches.front(), beds_->ledger->garden().policy) <= Setting::Note;
  }
  return false;
}

void BedRows::add_flow() {
  const int weeks = beds_->graph().weeks().length().count();
  const bool layered = legume_setting_ >= Setting::Warn;
  const int layers = layered ? kLayers : 1;
  std::vector<std::array<int, kLayers>> nodes(static_cast<std::size_t>(weeks));
  int start = layers - 1;
  if (layered && credits(beds_->start.recent[1])) start = 1;
  if (layered && credits(beds_->start.recent[0])) start = 0;
  for (int week = 0; week < weeks; ++week) {
    for (int layer = 0; layer < layers; ++layer) {
      const bool source = week == 0 && layer == start;
      nodes[static_cast<std::size_t>(week)][static_cast<std::size_t>(layer)] =
          program_->row(Sense::Equal, source ? 1.0 : 0.0);
    }
  }
  const auto node = [&](int week, int layer) {
    return nodes[static_cast<std::size_t>(week)][static_cast<std::size_t>(layer)];
  };
  const std::size_t count = beds_->choices().size();
  taken_.assign(count, -1);
  by_layer_.assign(count, {-1, -1, -1});
  gives_credit_.assign(count, 0);
  for (std::size_t i = 0; i < count && layered; ++i) {
    const ledger::Stand& stand = beds_->choices()[i].stand;
    if (!stand.legume) continue;
    gives_credit_[i] = credits({stand.spec.crop, stand.spec.weeks, stand.spec.ending, stand.useful,
                                stand.progress.flower, stand.tops_dry_t_ha, stand.tops_n_pct})
                           ? 1
                           : 0;
  }
  for (const graph::Arc& arc : beds_->graph().arcs()) {
    const int from = (arc.from - beds_->start.week).count();
    const int to = (arc.to - beds_->start.week).count();
    const auto place = static_cast<std::size_t>(std::max(0, arc.stand));
    if (arc.stand >= 0 && !alone_[place].possible) continue;
    int sum = -1;
    if (arc.stand >= 0) {
      taken_[place] = program_->column(-alone_[place].cost, 1.0);
      sum = program_->row(Sense::Equal, 0.0);
      program_->add(sum, taken_[place], -1.0);
    }
    for (int layer = 0; layer < layers; ++layer) {
      const bool hungry = arc.stand >= 0 && alone_[place].needs_legume && layer == kLayers - 1;
      if (hungry && legume_setting_ == Setting::Require) continue;
      const double price = beds_->ledger->garden().costs.warn_share;
      const double profit = hungry ? -price * beds_->choices()[place].worth : 0.0;
      const int column = program_->column(profit, 1.0, true);
      program_->add(node(from, layer), column, 1.0);
      int next = layer;
      if (arc.stand >= 0 && layered) next = gives_credit_[place] != 0 ? 0 : std::min(layer + 1, 2);
      if (to < weeks) program_->add(node(to, next), column, -1.0);
      if (arc.stand < 0) {
        idle_[from].push_back(column);
      } else {
        by_layer_[place][static_cast<std::size_t>(layer)] = column;
        program_->add(sum, column, 1.0);
      }
    }
  }
}

}  // namespace aftercrop::bench
