#include "relaxation.h"

#include <fmt/format.h>

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
    : ground_(&ground) {
  const rules::Rule* rule = rules::find_rule(garden::RuleId::LegumeBeforeHeavyFeeder);
  for (const Option& option : ground.options) {
    // One that the rule heeds at all: roots to eat are exempt.
    ledger::BedState bare = ground.start;
    bare.week = option.stand.spec.weeks.first;
    bare.known_since = kLongAgo;
    bare.recent = {};
    rules::Breaches breaches;
    rule->judge({*ground.ledger, bare, option.stand, ground.covers_bind}, breaches);
    if (breaches.empty() || option.decided) continue;
    feeder_ = &option;
    break;
  }
  find_groups();
  read_fees(fees, objections);
  price_rows();
  leave_legumes_out();
  sweep();
}

int Relaxation::season_of(Week week) const {
  return ground_->ledger->site().season_of({week, week + Weeks(1)});
}

bool Relaxation::keeps_one_season(const Option& option) const {
  return !option.decided && option.stand.season_as_next == option.stand.season_as_previous;
}

int Relaxation::group_of(const Option& option) const {
  const auto id = ground_->ledger->catalogue().crop(option.stand.spec.crop).group;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (groups_[g].id == id) return static_cast<int>(g);
  }
  return -1;
}

void Relaxation::find_groups() {
  const catalogue::Catalogue& rows = ground_->ledger->catalogue();
  const garden::Policy& policy = ground_->ledger->garden().policy;
  first_season_ = season_of(ground_->start.week);
  int last = first_season_;
  int longest = 0;
  if (policy.of(garden::RuleId::FamilyBreak) == garden::Setting::Require) {
    for (const Option& option : ground_->options) {
      const catalogue::Crop& crop = rows.crop(option.stand.spec.crop);
      if (crop.is_cover() || !crop.group.known()) continue;
      const catalogue::Break asked = rows.group(crop.group).crop;
      if (asked.min <= 0 || asked.rec <= 0) continue;
      int group = group_of(option);
      if (group < 0) {
        group = static_cast<int>(groups_.size());
        groups_.push_back({crop.group, asked.min, true, {}, {}});
      }
      if (!keeps_one_season(option)) groups_[static_cast<std::size_t>(group)].pays = false;
      last = std::max(last, option.stand.season_as_previous);
      longest = std::max(longest, asked.min);
    }
  }
  seasons_ = last - first_season_ + longest + 2;
}

void Relaxation::read_fees(const std::vector<Claims::Fee>& fees,
                           std::vector<std::string>& objections) {
  const catalogue::Catalogue& rows = ground_->ledger->catalogue();
  for (Group& group : groups_) group.fees.assign(static_cast<std::size_t>(seasons_), 0.0);
  for (const Claims::Fee& fee : fees) {
    const std::string where = fmt::format("bed {}: the fee of {} in season {}",
                                          ground_->ledger->bed().name, fee.group, fee.season);
    const auto group = std::find_if(groups_.begin(), groups_.end(), [&](const Group& one) {
      return rows.group(one.id).id == fee.group;
    });
    const int place = fee.season - first_season_;
    if (group == groups_.end() || place < 0 || place >= seasons_) {
      objections.push_back(where + " is paid by no stand");
      continue;
    }
    double& known = group->fees[static_cast<std::size_t>(place)];
    if (fee.fee <= 0.0 || known != 0.0) {
      objections.push_back(fmt::format("{} is there twice or not above nought", where));
      continue;
    }
    if (!on_scale(fee.fee)) {
      objections.push_back(fmt::format("{}: {} is no multiple of 1/2^30", where, fee.fee));
    }
    if (group->pays) known = fee.fee;
  }
  for (Group& group : groups_) {
    group.rest.assign(group.fees.size() + 1, 0.0);
    for (std::size_t s = group.fees.size(); s-- > 0;) {
      group.rest[s] = group.rest[s + 1] + group.fees[s];
    }
  }
}

/// The most stands of a group that one season can hold, one after the other.
int Relaxation::most_in_season(std::size_t group, int season) const {
  std::vector<calendar::WeekSpan> spans;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const Option& option = ground_->options[i];
    if (rows_[i].group == static_cast<int>(group) && option.stand.season_as_next == season) {
      spans.push_back(option.stand.spec.weeks);
    }
  }
  std::sort(spans.begin(), spans.end(),
            [](const auto& a, const auto& b) { return a.past < b.past; });
  int count = 0;
  Week free = kLongAgo;
  for (const calendar::WeekSpan& span : spans) {
    if (span.first < free) continue;
    free = span.past;
    ++count;
  }
  return std::max(1, count);
}

void Relaxation::price_rows() {
  rows_.resize(ground_->options.size());
  const catalogue::Catalogue& catalogue = ground_->ledger->catalogue();
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const Option& option = ground_->options[i];
    const int group = group_of(option);
    const bool food = !catalogue.crop(option.stand.spec.crop).is_cover();
    if (food && group >= 0 && groups_[static_cast<std::size_t>(group)].pays) rows_[i].group = group;
  }
  std::map<std::pair<int, int>, double> paid;  // by group and season
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    const Option& option = ground_->options[i];
    Row& row = rows_[i];
    row.earns = option.profit - option.fixed.costs();
    if (!option.decided) ask_legume_rule(row, option);
    if (option.stand.legume && feeder_ != nullptr) {
      row.gives = readies({past_of(option.stand), {}}, option.stand.spec.weeks.past, kLongAgo);
    }
    if (row.group < 0) continue;
    row.refused = too_soon(row, option);
    const auto g = static_cast<std::size_t>(row.group);
    const int season = option.stand.season_as_next;
    auto known = paid.find({row.group, season});
    if (known == paid.end()) {
      const auto first = static_cast<std::size_t>(season - first_season_);
      double sum = 0.0;
      for (std::size_t s = first; s <= first + static_cast<std::size_t>(groups_[g].breaks); ++s) {
        sum += groups_[g].fees[s];
      }
      known = paid.emplace(std::pair(row.group, season), sum / most_in_season(g, season)).first;
    }
    row.paid = known->second;
    row.earns -= row.paid;
  }
}

/// Within the break of the group's last stand before the start: refused then, and ever after, for
/// whatever of the group could stand there in between is refused as well.
bool Relaxation::too_soon(const Row& row, const Option& option) const {
  const Group& group = groups_[static_cast<std::size_t>(row.group)];
  const int last = ground_->start.crop_season[group.id.place()];
  if (last == ledger::kNeverSeason) return false;
  const int between = option.stand.season_as_next - last - 1;
  return between >= 0 && between < group.breaks;
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

void Relaxation::sweep() {
  const auto weeks = static_cast<std::size_t>(ground_->weeks());
  best_.assign(weeks + 1, {});
  for (std::size_t node = weeks; node-- > 0;) {
    std::array<double, kStandings> best{kNever, kNever, kNever};
    if (ground_->may_rest[node] != 0) best = best_[node + 1];
    for (const std::size_t i : ground_->leaving[node]) {
      const Row& row = rows_[i];
      if (row.refused) continue;
      const auto to = std::min(weeks, ground_->node(ground_->options[i].stand.spec.weeks.past));
      for (std::size_t r = 0; r < kStandings; ++r) {
        best[r] = std::max(best[r], row.earns - row.unready[r] + best_[to][after(r, row.gives)]);
      }
    }
    best_[node] = best;
  }
}

void Relaxation::leave_legumes_out() {
  std::vector<Row> kept = rows_;
  for (Row& row : rows_) {
    row.unready.fill(0.0);
    row.refused = false;
  }
  sweep();
  loosest_ = whole();
  rows_ = std::move(kept);
}

/// Fees that a path may still pay from a season on, the option first if there is one.
double Relaxation::fees_ahead(int season, const ledger::BedState& state, const Option* with) const {
  double sum = 0.0;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const Group& group = groups_[g];
    if (!group.pays) continue;
    int last = state.crop_season[group.id.place()];
    if (with != nullptr && group_of(*with) == static_cast<int>(g) &&
        !ground_->ledger->catalogue().crop(with->stand.spec.crop).is_cover()) {
      last = with->stand.season_as_previous;
    }
    int from = season;
    // Later in the season of the last stand others may follow; once it is over, none before the
    // break is.
    if (last != ledger::kNeverSeason && season > last) {
      from = std::max(season, last + group.breaks + 1);
    }
    const int place = std::clamp(from - first_season_, 0, seasons_);
    sum += group.rest[static_cast<std::size_t>(place)];
  }
  return sum;
}

double Relaxation::ahead(const ledger::BedState& state) const {
  const std::size_t node = ground_->node(state.week);
  if (node >= static_cast<std::size_t>(ground_->weeks())) return 0.0;
  return best_[node][standing(state)] + fees_ahead(season_of(state.week), state, nullptr);
}

double Relaxation::ahead_with(const ledger::BedState& state, std::size_t option) const {
  const Option& taken = ground_->options[option];
  const Row& row = rows_[option];
  if (row.refused) return kNever;
  const std::size_t now = standing(state);
  const Week past = taken.stand.spec.weeks.past;
  const double earns = row.earns + row.paid - row.unready[now];
  const std::size_t to = ground_->node(past);
  if (to >= static_cast<std::size_t>(ground_->weeks())) return earns;
  return earns + best_[to][after(now, row.gives)] + fees_ahead(season_of(past), state, &taken);
}

double Relaxation::whole() const {
  double sum = best_.front()[standing(ground_->start)];
  for (const Group& group : groups_) sum += group.rest.front();
  return sum;
}

}  // namespace aftercrop::verifier
