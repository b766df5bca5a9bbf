#include "sequencer/completion.h"

#include <algorithm>
#include <limits>

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr double kRefused = std::numeric_limits<double>::infinity();
constexpr double kUnreachable = -1e300;
constexpr double kUnknown = -1e200;
constexpr double kGuess = 0.95;  // of the bound, where no path's earning is known
constexpr calendar::Week kLongAgo{-90000};

std::size_t after(std::size_t readiness, bool gives) {
  if (gives) return static_cast<std::size_t>(Readiness::Latest);
  return readiness == static_cast<std::size_t>(Readiness::Latest)
             ? static_cast<std::size_t>(Readiness::Older)
             : static_cast<std::size_t>(Readiness::None);
}

ledger::PastStand past_of(const ledger::Stand& stand) {
  return {stand.spec.crop,       stand.spec.weeks,    stand.spec.ending, stand.useful,
          stand.progress.flower, stand.tops_dry_t_ha, stand.tops_n_pct};
}

}  // namespace

Completion::Completion(const BedClass& beds, const Objective& objective)
    : beds_(&beds), objective_(&objective) {
  const catalogue::Catalogue& rows = beds.ledger->catalogue();
  for (const Choice& choice : beds.choices) {
    if (choice.decided == nullptr &&
        rows.crop(choice.stand.spec.crop).feeder == catalogue::Feeder::Heavy) {
      hungry_ = &choice;
      break;
    }
  }
  nodes_ = (beds.graph->last() - beds.graph->weeks().first).count() + 1;
  end_ = beds.graph->weeks().length().count();
  values_.assign(static_cast<std::size_t>(nodes_) * kReadinesses, 0.0);
  for (int node = 0; node < nodes_; ++node) {
    const Week week = beds.graph->weeks().first + Weeks(node);
    season_of_node_.push_back(beds.ledger->site().season_of({week, week + Weeks(1)}));
  }
  read_arcs();
  count_repeats();
  mu_.assign(groups_.size() * static_cast<std::size_t>(seasons_), 0.0);
  fee_.assign(keys_.size(), 0.0);
}

void Completion::read_arcs() {
  const auto& arcs = beds_->graph->arcs();
  int last_season = std::numeric_limits<int>::min();
  first_season_ = beds_->ledger->site().season_of(
      {beds_->graph->weeks().first, beds_->graph->weeks().first + Weeks(1)});
  first_.assign(static_cast<std::size_t>(end_) + 1, 0);
  for (const graph::Arc& arc : arcs) {
    Relaxed relaxed;
    relaxed.from = (arc.from - beds_->graph->weeks().first).count();
    relaxed.to = (arc.to - beds_->graph->weeks().first).count();
    relaxed.stand = arc.stand;
    ++first_[static_cast<std::size_t>(relaxed.from) + 1];
    if (arc.stand >= 0) {
      const Choice& choice = beds_->choices[static_cast<std::size_t>(arc.stand)];
      relaxed.gives = readies(choice);
      if (!arc.fixed) {
        relaxed.costs = -choice.fixed.total();
        read_rules(relaxed, choice);
        read_history(relaxed, choice);
        relaxed.key = key_of(choice);
        last_season = std::max(last_season, choice.stand.season_as_previous);
      }
    }
    arcs_.push_back(relaxed);
  }
  for (std::size_t node = 1; node < first_.size(); ++node) first_[node] += first_[node - 1];
  int longest = 0;
  for (const Group& group : groups_) longest = std::max(longest, group.breaks);
  seasons_ = std::max(0, last_season - first_season_ + 1) + longest + 1;
}

void Completion::read_rules(Relaxed& arc, const Choice& choice) {
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

/// A family that stood here before the seasons is never further back than at their start.
void Completion::read_history(Relaxed& arc, const Choice& choice) {
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::FamilyBreak)
      ->judge({*beds_->ledger, beds_->start, choice.stand, beds_->clubroot_seen}, breaches);
  Value value;
  arc.refused = !objective_->charge_breaches(breaches, choice.worth, value);
  arc.costs += value.warnings;
}

/// Asks the legume rule whether a heavy feeder right after this stand would be content.
bool Completion::readies(const Choice& choice) {
  if (hungry_ == nullptr || !choice.stand.legume) return false;
  ledger::BedState state;
  state.week = choice.stand.spec.weeks.past;
  state.known_since = kLongAgo;
  state.recent = {past_of(choice.stand), {}};
  return content(state);
}

bool Completion::content(const ledger::BedState& state) const {
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder)
      ->judge({*beds_->ledger, state, hungry_->stand, beds_->clubroot_seen}, breaches);
  Value value;
  return objective_->charge_breaches(breaches, 1.0, value) && value.warnings == 0.0;
}

Readiness Completion::readiness_of(const ledger::BedState& state) const {
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
int Completion::key_of(const Choice& choice) {
  const catalogue::Catalogue& rows = beds_->ledger->catalogue();
  const catalogue::Crop& crop = rows.crop(choice.stand.spec.crop);
  const auto& policy = beds_->ledger->garden().policy;
  if (policy.of(garden::RuleId::FamilyBreak) != garden::Setting::Require) return -1;
  if (crop.is_cover() || !crop.group.known()) return -1;
  if (choice.stand.season_as_next != choice.stand.season_as_previous) return -1;
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
void Completion::count_repeats() {
  std::vector<std::vector<const Relaxed*>> of_key(keys_.size());
  for (const Relaxed& arc : arcs_) {
    if (arc.key >= 0) of_key[static_cast<std::size_t>(arc.key)].push_back(&arc);
  }
  for (std::size_t key = 0; key < keys_.size(); ++key) {
    std::stable_sort(of_key[key].begin(), of_key[key].end(),
                     [](const Relaxed* a, const Relaxed* b) { return a->to < b->to; });
    int count = 0;
    int free = -1;
    for (const Relaxed* arc : of_key[key]) {
      if (arc->from < free) continue;
      free = arc->to;
      ++count;
    }
    keys_[key].share = 1.0 / std::max(1, count);
  }
}

std::size_t Completion::place(std::size_t group, int season) const {
  const int offset = std::clamp(season - first_season_, 0, seasons_ - 1);
  return group * static_cast<std::size_t>(seasons_) + static_cast<std::size_t>(offset);
}

double Completion::fees(const Key& key) const {
  double sum = 0.0;
  for (int season = key.season; season <= key.season + groups_[key.group].breaks; ++season) {
    sum += mu_[place(key.group, season)];
  }
  return sum * key.share;
}

void Completion::sweep(const std::vector<double>& profits) {
  for (std::size_t key = 0; key < keys_.size(); ++key) fee_[key] = fees(keys_[key]);
  for (int node = end_ - 1; node >= 0; --node) {
    std::array<double, kReadinesses> best;
    best.fill(kUnreachable);
    const auto here = static_cast<std::size_t>(node);
    for (std::size_t i = first_[here]; i < first_[here + 1]; ++i) {
      const Relaxed& arc = arcs_[i];
      if (arc.refused) continue;
      const double* then = &values_[static_cast<std::size_t>(arc.to) * kReadinesses];
      if (arc.stand < 0) {
        for (std::size_t r = 0; r < kReadinesses; ++r) best[r] = std::max(best[r], then[r]);
        continue;
      }
      double profit = profits[i] - arc.costs;
      if (arc.key >= 0) profit -= fee_[static_cast<std::size_t>(arc.key)];
      for (std::size_t r = 0; r < kReadinesses; ++r) {
        best[r] = std::max(best[r], profit - arc.unready[r] + then[after(r, arc.gives)]);
      }
    }
    std::copy(best.begin(), best.end(), &values_[here * kReadinesses]);
  }
}

/// Follows the best path of the last sweep; `paid` = how often it pays each multiplier.
void Completion::best_path(const std::vector<double>& profits, std::vector<double>& paid) const {
  paid.assign(mu_.size(), 0.0);
  auto readiness = static_cast<std::size_t>(readiness_of(beds_->start));
  for (int node = 0; node < end_;) {
    const auto here = static_cast<std::size_t>(node);
    const Relaxed* taken = nullptr;
    double best = kUnreachable;
    for (std::size_t i = first_[here]; i < first_[here + 1]; ++i) {
      const Relaxed& arc = arcs_[i];
      if (arc.refused) continue;
      double value = profits[i] - arc.costs;
      if (arc.key >= 0) value -= fee_[static_cast<std::size_t>(arc.key)];
      if (arc.stand >= 0) value -= arc.unready[readiness];
      const std::size_t then = arc.stand < 0 ? readiness : after(readiness, arc.gives);
      value += values_[static_cast<std::size_t>(arc.to) * kReadinesses + then];
      if (value <= best) continue;
      best = value;
      taken = &arc;
    }
    if (taken == nullptr) return;
    if (taken->key >= 0) {
      const Key& key = keys_[static_cast<std::size_t>(taken->key)];
      for (int s = key.season; s <= key.season + groups_[key.group].breaks; ++s) {
        paid[place(key.group, s)] += key.share;
      }
    }
    if (taken->stand >= 0) readiness = after(readiness, taken->gives);
    node = taken->to;
  }
}

void Completion::solve(const std::vector<double>& profits, int steps, double target) {
  constexpr double kFirstScale = 1.0;
  constexpr int kPatience = 6;
  const auto start = static_cast<std::size_t>(readiness_of(beds_->start));
  const auto total = [&] {
    double sum = values_[start];
    for (const double mu : mu_) sum += mu;
    return sum;
  };
  sweep(profits);
  bound_ = total();
  std::vector<double> best = mu_;
  std::vector<double> paid;
  if (target <= kUnknown) target = kGuess * bound_;
  double scale = kFirstScale;
  double now = bound_;
  for (int step = 0, in_vain = 0; step < steps; ++step) {
    best_path(profits, paid);
    double length = 0.0;
    for (std::size_t i = 0; i < mu_.size(); ++i) {
      const double slope = 1.0 - paid[i];
      if (slope < 0.0 || mu_[i] > 0.0) length += slope * slope;
    }
    if (length < 1e-12 || now <= target + 1e-9) break;
    const double stride = scale * (now - target) / length;
    for (std::size_t i = 0; i < mu_.size(); ++i) {
      mu_[i] = std::max(0.0, mu_[i] - stride * (1.0 - paid[i]));
    }
    sweep(profits);
    now = total();
    if (now < bound_ - 1e-9) {
      bound_ = now;
      best = mu_;
      in_vain = 0;
    } else if (++in_vain >= kPatience) {
      in_vain = 0;
      scale *= 0.5;
    }
  }
  if (mu_ != best) {
    mu_ = best;
    sweep(profits);
  }
  bound_ = total();
  paid_from_.assign(groups_.size(), std::vector<double>(static_cast<std::size_t>(seasons_) + 1));
  for (std::size_t group = 0; group < groups_.size(); ++group) {
    for (int s = seasons_ - 1; s >= 0; --s) {
      const auto at = static_cast<std::size_t>(s);
      paid_from_[group][at] = paid_from_[group][at + 1] + mu_[place(group, first_season_ + s)];
    }
  }
}

std::vector<Certificate::Fee> Completion::fees() const {
  std::vector<Certificate::Fee> fees;
  for (std::size_t group = 0; group < groups_.size(); ++group) {
    for (int s = 0; s < seasons_; ++s) {
      const double fee = mu_[place(group, first_season_ + s)];
      if (fee > 0.0) fees.push_back({groups_[group].group, first_season_ + s, fee});
    }
  }
  return fees;
}

Completion::Standing Completion::standing(const ledger::BedState& state) const {
  Standing standing;
  standing.readiness = static_cast<std::uint8_t>(readiness_of(state));
  for (std::size_t group = 0; group < groups_.size(); ++group) {
    standing.last[group] = state.crop_season[groups_[group].group.place()];
  }
  return standing;
}

/// What a path may still pay, if `group` (-1 = none) stood here last in `season`.
double Completion::fees_ahead(int node, const Standing& standing, int group, int season) const {
  const int now = season_of_node_[static_cast<std::size_t>(node)];
  double sum = 0.0;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const int last = static_cast<int>(g) == group ? season : standing.last[g];
    int from = now;
    if (last != ledger::kNeverSeason && now > last) {
      from = std::max(now, last + groups_[g].breaks + 1);
    }
    const int offset = std::clamp(from - first_season_, 0, seasons_);
    sum += paid_from_[g][static_cast<std::size_t>(offset)];
  }
  return sum;
}

double Completion::ahead(int node, const Standing& standing) const {
  if (node >= end_) return 0.0;
  return values_[static_cast<std::size_t>(node) * kReadinesses + standing.readiness] +
         fees_ahead(node, standing, -1, 0);
}

double Completion::ahead_through(std::size_t place, const Standing& standing) const {
  const Relaxed& arc = arcs_[place];
  if (arc.refused) return kUnreachable;
  std::size_t readiness = standing.readiness;
  double costs = 0.0;
  if (arc.stand >= 0) {
    costs = arc.costs + arc.unready[readiness];
    readiness = after(readiness, arc.gives);
  }
  if (arc.to >= end_) return -costs;
  const int group =
      arc.key >= 0 ? static_cast<int>(keys_[static_cast<std::size_t>(arc.key)].group) : -1;
  const int season = arc.key >= 0 ? keys_[static_cast<std::size_t>(arc.key)].season : 0;
  return values_[static_cast<std::size_t>(arc.to) * kReadinesses + readiness] - costs +
         fees_ahead(arc.to, standing, group, season);
}

}  // namespace aftercrop::sequencer
