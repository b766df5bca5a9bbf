#include "sequencer/relaxed.h"

#include <algorithm>
#include <limits>

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr double kRefused = std::numeric_limits<double>::infinity();
constexpr calendar::Week kLongAgo{-90000};

ledger::PastStand ended(const ledger::Stand& stand) {
  return {stand.spec.crop,       stand.spec.weeks,    stand.spec.ending, stand.useful,
          stand.progress.flower, stand.tops_dry_t_ha, stand.tops_n_pct};
}

}  // namespace

Relaxed::Relaxed(const BedClass& beds, const Objective& objective)
    : beds_(&beds), objective_(&objective) {
  const catalogue::Catalogue& rows = beds.ledger->catalogue();
  for (const Choice& choice : beds.choices()) {
    if (choice.decided == nullptr &&
        rows.crop(choice.stand.spec.crop).feeder == catalogue::Feeder::Heavy) {
      hungry_ = &choice;
      break;
    }
  }
  const Week first = beds.graph().weeks().first;
  for (Week week = first; week <= beds.graph().last(); ++week) {
    season_of_node_.push_back(beds.ledger->site().season_of({week, week + Weeks(1)}));
  }
  end_ = beds.graph().weeks().length().count();
  find_unbound();
  read_arcs();
  count_repeats();
}

Relaxed::Past Relaxed::past_of(const BedClass& beds) const {
  Past past{readiness_of(beds.start), std::vector<bool>(arcs_.size(), false)};
  for (std::size_t i = 0; i < arcs_.size(); ++i) {
    const graph::Arc& arc = beds.graph().arcs()[i];
    if (arc.stand < 0 || arc.fixed) continue;
    past.refused[i] = refused(beds.choices()[static_cast<std::size_t>(arc.stand)], beds);
  }
  return past;
}

std::pair<std::size_t, std::size_t> Relaxed::leaving(int node) const {
  const auto place = static_cast<std::size_t>(node);
  return {first_[place], first_[place + 1]};
}

void Relaxed::read_arcs() {
  const auto& arcs = beds_->graph().arcs();
  first_season_ = beds_->ledger->site().season_of(
      {beds_->graph().weeks().first, beds_->graph().weeks().first + Weeks(1)});
  int last_season = season_of_node_.back();
  first_.assign(static_cast<std::size_t>(end_) + 1, 0);
  for (const graph::Arc& arc : arcs) {
    Arc relaxed;
    relaxed.from = (arc.from - beds_->graph().weeks().first).count();
    relaxed.to = (arc.to - beds_->graph().weeks().first).count();
    relaxed.stand = arc.stand >= 0;
    ++first_[static_cast<std::size_t>(relaxed.from) + 1];
    if (arc.stand >= 0) {
      const Choice& choice = beds_->choices()[static_cast<std::size_t>(arc.stand)];
      relaxed.gives = readies(choice);
      if (!arc.fixed) {
        relaxed.costs = -choice.fixed.total();
        read_rules(relaxed, choice);
        relaxed.key = key_of(choice);
        last_season = std::max(last_season, choice.stand.season_as_previous);
      }
    }
    arcs_.push_back(relaxed);
  }
  for (std::size_t node = 1; node < first_.size(); ++node) first_[node] += first_[node - 1];
  int longest = 0;
  for (const Group& group : groups_) longest = std::max(longest, group.breaks);
  seasons_ = last_season - first_season_ + longest + 2;
}

void Relaxed::read_rules(Arc& arc, const Choice& choice) {
  const auto& rows = beds_->ledger->catalogue();
  if (rows.crop(choice.stand.spec.crop).feeder != catalogue::Feeder::Heavy) return;
  ledger::BedState bare = beds_->start;
  bare.week = choice.stand.spec.weeks.first;
  bare.known_since = kLongAgo;
  bare.recent = {};
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder)
      ->judge({*beds_->ledger, bare, choice.stand, beds_->clubroot_seen}, breaches);
  Value value;
  const bool allowed = objective_->charge_breaches(breaches, choice.worth, value);
  arc.unready[static_cast<std::size_t>(Readiness::None)] = allowed ? value.warnings : kRefused;
}

/// Groups with a stand that no rule is asked about (decided already), or that counts for two
/// seasons (a long one): after it, stands of its season come without a break.
void Relaxed::find_unbound() {
  const catalogue::Catalogue& rows = beds_->ledger->catalogue();
  for (const Choice& choice : beds_->choices()) {
    const bool plain =
        choice.decided == nullptr && choice.stand.season_as_next == choice.stand.season_as_previous;
    if (!plain) unbound_.insert(rows.crop(choice.stand.spec.crop).group);
  }
}

/// A food crop that its own group's last season refuses at the start is refused for good: no other
/// stand of its season could come before it. Warnings are left out: only the first stand of a
/// season hears them.
bool Relaxed::refused(const Choice& choice, const BedClass& beds) const {
  const catalogue::Crop& crop = beds.ledger->catalogue().crop(choice.stand.spec.crop);
  if (crop.is_cover() || !crop.group.known() || unbound_.count(crop.group) > 0) return false;
  const auto last = beds.start.crop_season[crop.group.place()];
  if (last == ledger::kNeverSeason) return false;
  ledger::BedState past;
  past.week = beds.start.week;
  past.known_since = beds.start.known_since;
  past.crop_season[crop.group.place()] = last;
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::FamilyBreak)
      ->judge({*beds.ledger, past, choice.stand, beds.clubroot_seen}, breaches);
  Value value;
  return !objective_->charge_breaches(breaches, choice.worth, value);
}

/// Asks the legume rule whether a heavy feeder right after this stand would be content.
bool Relaxed::readies(const Choice& choice) const {
  if (hungry_ == nullptr || !choice.stand.legume) return false;
  ledger::BedState state;
  state.week = choice.stand.spec.weeks.past;
  state.known_since = kLongAgo;
  state.recent = {ended(choice.stand), {}};
  return content(state);
}

bool Relaxed::content(const ledger::BedState& state) const {
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder)
      ->judge({*beds_->ledger, state, hungry_->stand, beds_->clubroot_seen}, breaches);
  Value value;
  return objective_->charge_breaches(breaches, 1.0, value) && value.warnings == 0.0;
}

Readiness Relaxed::readiness_of(const ledger::BedState& state) const {
  if (hungry_ == nullptr) return Readiness::None;
  ledger::BedState asked;
  asked.week = state.week;
  asked.known_since = state.known_since;
  asked.recent = state.recent;
  if (!content(asked)) return Readiness::None;
  if (!state.recent[0].crop.known() || !state.recent[1].crop.known()) return Readiness::Latest;
  asked.recent[1] = state.recent[0];
  asked.recent[0] = {hungry_->stand.spec.crop, {state.week, state.week}};
  return content(asked) ? Readiness::Latest : Readiness::Older;
}

/// Only where breaking the break is refused, and only food crops among themselves.
int Relaxed::key_of(const Choice& choice) {
  const catalogue::Catalogue& rows = beds_->ledger->catalogue();
  const catalogue::Crop& crop = rows.crop(choice.stand.spec.crop);
  const auto& policy = beds_->ledger->garden().policy;
  if (policy.of(garden::RuleId::FamilyBreak) != garden::Setting::Require) return -1;
  if (crop.is_cover() || !crop.group.known()) return -1;
  if (unbound_.count(crop.group) > 0) return -1;
  const int breaks = rows.group(crop.group).crop.min;
  if (breaks <= 0 || rows.group(crop.group).crop.rec <= 0) return -1;
  std::size_t group = 0;
  while (group < groups_.size() && groups_[group].group != crop.group) ++group;
  if (group == kMostPriced) return -1;
  if (group == groups_.size()) groups_.push_back({crop.group, breaks});
  const int season = choice.stand.season_as_next;
  for (std::size_t key = 0; key < keys_.size(); ++key) {
    if (keys_[key].group == group && keys_[key].season == season) return static_cast<int>(key);
  }
  keys_.push_back({group, season, 1.0});
  return static_cast<int>(keys_.size()) - 1;
}

/// The most stands of one group that fit into one season: each pays its share of the fee.
void Relaxed::count_repeats() {
  std::vector<std::vector<const Arc*>> of_key(keys_.size());
  for (const Arc& arc : arcs_) {
    if (arc.key >= 0) of_key[static_cast<std::size_t>(arc.key)].push_back(&arc);
  }
  for (std::size_t key = 0; key < keys_.size(); ++key) {
    std::stable_sort(of_key[key].begin(), of_key[key].end(),
                     [](const Arc* a, const Arc* b) { return a->to < b->to; });
    int count = 0;
    int free = -1;
    for (const Arc* arc : of_key[key]) {
      if (arc->from < free) continue;
      free = arc->to;
      ++count;
    }
    keys_[key].share = 1.0 / std::max(1, count);
  }
}

Relaxed::Standing Relaxed::standing(const ledger::BedState& state) const {
  Standing standing;
  standing.readiness = readiness_of(state);
  for (std::size_t group = 0; group < groups_.size(); ++group) {
    standing.last[group] = state.crop_season[groups_[group].group.place()];
  }
  return standing;
}

}  // namespace aftercrop::sequencer
