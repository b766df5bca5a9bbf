#include "relaxation.h"

#include <algorithm>
#include <limits>

#include "charges.h"

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr double kNever = -std::numeric_limits<double>::infinity();
constexpr Week kLongAgo{-90000};
constexpr std::size_t kNone = 0;
constexpr std::size_t kOlder = 1;
constexpr std::size_t kLatest = 2;

std::size_t after(std::size_t standing, bool gives) {
  if (gives) return kLatest;
  return standing == kLatest ? kOlder : kNone;
}

ledger::PastStand past_of(const ledger::Stand& stand) {
  ledger::PastStand past;
  past.crop = stand.spec.crop;
  past.weeks = stand.spec.weeks;
  past.ending = stand.spec.ending;
  past.useful = stand.useful;
  return past;
}

}  // namespace

Relaxation::Relaxation(const Ground& ground, const std::vector<Claims::Fee>& fees,
                       std::vector<std::string>& objections)
    : ground_(&ground), breaks_(ground, fees, objections) {
  fill_rows();
  sweep(false);
  loosest_ = whole();
  sweep(true);
}

int Relaxation::season_of(Week week) const {
  return ground_->ledger->site().season_of({week, week + Weeks(1)});
}

void Relaxation::fill_rows() {
  for (const Option& option : ground_->options) {
    Row row;
    row.earns = option.profit - option.fixed.costs();
    if (!option.decided) ask_legume_rule(row, option);
    if (feeder_ == nullptr && row.unready[kNone] != 0.0) feeder_ = &option;
    rows_.push_back(row);
  }
  if (feeder_ == nullptr) return;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const ledger::Stand& stand = ground_->options[i].stand;
    rows_[i].gives = stand.legume && readies({past_of(stand), {}}, stand.spec.weeks.past, kLongAgo);
  }
}

/// What the stand costs where no legume is behind it.
void Relaxation::ask_legume_rule(Row& row, const Option& option) const {
  ledger::BedState bare = ground_->start;
  bare.week = option.stand.spec.weeks.first;
  bare.known_since = kLongAgo;
  bare.recent = {};
  rules::Breaches breaches;
  const rules::Occasion occasion{*ground_->ledger, bare, option.stand, ground_->covers_bind};
  rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder)->judge(occasion, breaches);
  Terms terms;
  const bool allowed = charge_breaches(breaches, ground_->ledger->garden(), option.worth, terms);
  row.unready[kNone] = allowed ? terms[Term::Warnings] : -kNever;
}

/// Whether a heavy feeder that started in this week would be content.
bool Relaxation::readies(const std::array<ledger::PastStand, 2>& recent, Week week,
                         Week known_since) const {
  ledger::BedState asked;
  asked.week = week;
  asked.known_since = known_since;
  asked.recent = recent;
  rules::Breaches breaches;
  const rules::Occasion occasion{*ground_->ledger, asked, feeder_->stand, ground_->covers_bind};
  rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder)->judge(occasion, breaches);
  Terms terms;
  const bool allowed = charge_breaches(breaches, ground_->ledger->garden(), 1.0, terms);
  return allowed && terms[Term::Warnings] == 0.0;
}

std::size_t Relaxation::standing(const ledger::BedState& state) const {
  if (feeder_ == nullptr) return kNone;
  if (!readies(state.recent, state.week, state.known_since)) return kNone;
  if (!state.recent[0].crop.known() || !state.recent[1].crop.known()) return kLatest;
  ledger::PastStand other;  // something that is no legume comes in between
  other.crop = feeder_->stand.spec.crop;
  other.weeks = {state.week, state.week};
  return readies({other, state.recent[0]}, state.week, state.known_since) ? kLatest : kOlder;
}

/// `with_past`: legumes, and what stood there before the start.
void Relaxation::sweep(bool with_past) {
  const auto weeks = static_cast<std::size_t>(ground_->weeks());
  best_.assign(weeks + 1, {});
  for (std::size_t node = weeks; node-- > 0;) {
    std::array<double, kStandings> best{kNever, kNever, kNever};
    if (ground_->may_rest[node] != 0) best = best_[node + 1];
    for (const std::size_t i : ground_->leaving[node]) {
      const Row& row = rows_[i];
      const Breaks::Burden& burden = breaks_.burden(i);
      if (with_past && burden.refused) continue;
      const auto to = std::min(weeks, ground_->node(ground_->options[i].stand.spec.weeks.past));
      const double earns = row.earns - burden.fees - (with_past ? burden.warned : 0.0);
      for (std::size_t r = 0; r < kStandings; ++r) {
        const double unready = with_past ? row.unready[r] : 0.0;
        best[r] = std::max(best[r], earns - unready + best_[to][after(r, row.gives)]);
      }
    }
    best_[node] = best;
  }
}

double Relaxation::ahead(const ledger::BedState& state) const {
  const std::size_t node = ground_->node(state.week);
  if (node >= static_cast<std::size_t>(ground_->weeks())) return 0.0;
  return best_[node][standing(state)] + breaks_.ahead(season_of(state.week), state);
}

/// The option's own warning is left to the rule.
double Relaxation::ahead_with(const ledger::BedState& state, std::size_t option) const {
  if (breaks_.burden(option).refused) return kNever;
  const Row& row = rows_[option];
  const std::size_t now = standing(state);
  const Week past = ground_->options[option].stand.spec.weeks.past;
  const double earns = row.earns - row.unready[now];
  const std::size_t to = ground_->node(past);
  if (to >= static_cast<std::size_t>(ground_->weeks())) return earns;
  return earns + best_[to][after(now, row.gives)] +
         breaks_.ahead(season_of(past), state, static_cast<int>(option));
}

double Relaxation::whole() const {
  return best_.front()[standing(ground_->start)] + breaks_.all_fees();
}

}  // namespace aftercrop::verifier
