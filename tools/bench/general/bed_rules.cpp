#include <algorithm>
#include <set>

#include "bench/general/bed_rows.h"

namespace aftercrop::bench {

using calendar::Week;
using calendar::Weeks;
using garden::RuleId;
using garden::Setting;

namespace {

constexpr int kYearWeeks = 52;
constexpr int kLongestWait = 12;  // weeks; no wait of the catalogue is longer

ledger::PastStand past_of(const ledger::Stand& stand) {
  return {stand.spec.crop,       stand.spec.weeks,    stand.spec.ending, stand.useful,
          stand.progress.flower, stand.tops_dry_t_ha, stand.tops_n_pct};
}

/// A bed that remembers nothing but one stand.
ledger::BedState only_after(const ledger::PastStand& past, Week week, std::size_t loads) {
  ledger::BedState state;
  state.week = week;
  state.known_since = week;  // rules that look back further stay silent
  state.recent = {past, {}};
  state.loads.resize(loads);
  return state;
}

}  // namespace

/// A legume that stood last or last but one, but ended more than a year ago, is none.
void BedRows::add_legume_age() {
  if (legume_setting_ < Setting::Warn) return;
  std::map<Week, std::vector<std::size_t>> hungry;
  for (std::size_t i = 0; i < alone_.size(); ++i) {
    if (alone_[i].needs_legume && taken_[i] >= 0) {
      hungry[beds_->choices()[i].stand.spec.weeks.first].push_back(i);
    }
  }
  for (const auto& [start, stands] : hungry) {
    double known = 0.0;
    for (const ledger::PastStand& past : beds_->start.recent) {
      if (credits(past) && (start - past.weeks.past).count() <= kYearWeeks) known = 1.0;
    }
    if (known > 0.0) continue;
    const int row = program_->row(Sense::AtMost, 0.0);
    double worth = 0.0;
    for (const std::size_t i : stands) {
      worth = std::max(worth, beds_->choices()[i].worth);
      for (int layer = 0; layer < 2; ++layer) {
        const int column = by_layer_[i][static_cast<std::size_t>(layer)];
        if (column >= 0) program_->add(row, column, 1.0);
      }
    }
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      const Week end = beds_->choices()[i].stand.spec.weeks.past;
      if (gives_credit_[i] == 0 || taken_[i] < 0) continue;
      if (end <= start && (start - end).count() <= kYearWeeks) program_->add(row, taken_[i], -1.0);
    }
    if (legume_setting_ == Setting::Require) continue;
    const double price = beds_->ledger->garden().costs.warn_share * worth;
    program_->add(row, program_->column(-price, 1.0), -1.0);
  }
}

/// Pairs of a stand and one that starts soon after it: refused pairs share rows, warned ones pay.
void BedRows::add_waits() {
  std::map<Week, std::vector<std::size_t>> starting;
  std::map<Week, std::vector<std::size_t>> ending;
  for (std::size_t i = 0; i < taken_.size(); ++i) {
    if (taken_[i] < 0) continue;
    starting[beds_->choices()[i].stand.spec.weeks.first].push_back(i);
    ending[beds_->choices()[i].stand.spec.weeks.past].push_back(i);
  }
  const rules::Rule* const kWaits[] = {rules::find_rule(RuleId::NeverFree),
                                       rules::find_rule(RuleId::PlantBack),
                                       rules::find_rule(RuleId::Immobilisation)};
  const garden::Garden& garden = beds_->ledger->garden();
  for (auto at = starting.begin(); at != starting.end(); ++at) {
    const auto& [start, nexts] = *at;
    std::map<std::size_t, std::vector<std::size_t>> warned;  // by the later stand
    for (auto before = ending.lower_bound(start - Weeks(kLongestWait));
         before != ending.end() && before->first <= start; ++before) {
      std::map<std::vector<std::size_t>, std::vector<std::size_t>> refused;
      for (const std::size_t i : before->second) {
        const ledger::BedState state =
            only_after(past_of(beds_->choices()[i].stand), start, beds_->start.loads.size());
        std::vector<std::size_t> no;
        for (const std::size_t j : nexts) {
          if (beds_->choices()[j].decided != nullptr) continue;
          rules::Breaches breaches;
          for (const rules::Rule* rule : kWaits) {
            if (garden.policy.of(rule->id) == Setting::Off) continue;
            rule->judge({*beds_->ledger, state, beds_->choices()[j].stand, beds_->clubroot_seen},
                        breaches);
          }
          bool refuses = false;
          for (const rules::Breach& breach : breaches) {
            const Setting level = rules::setting_of(breach, garden.policy);
            refuses = refuses || level == Setting::Require;
            if (level == Setting::Warn) warned[j].push_back(i);
          }
          if (refuses) no.push_back(j);
        }
        if (!no.empty()) refused[no].push_back(i);
      }
      for (const auto& [later, earlier] : refused) {
        const int row = program_->row(Sense::AtMost, 1.0);
        for (const std::size_t i : earlier) program_->add(row, taken_[i], 1.0);
        for (const std::size_t j : later) program_->add(row, taken_[j], 1.0);
      }
    }
    for (const auto& [j, earlier] : warned) {
      const int row = program_->row(Sense::AtMost, 1.0);
      program_->add(row, taken_[j], 1.0);
      for (const std::size_t i : std::set<std::size_t>(earlier.begin(), earlier.end())) {
        program_->add(row, taken_[i], 1.0);
      }
      const double price = garden.costs.warn_share * beds_->choices()[j].worth;
      program_->add(row, program_->column(-price), -1.0);
    }
  }
}

/// 1 if any of these stands is taken: in each week at most one of them stands.
int BedRows::season_column(const std::vector<std::size_t>& stands) {
  const int column = program_->column(0.0, 1.0);
  std::map<Week, std::vector<std::size_t>> by_week;
  std::set<Week> starts;
  for (const std::size_t i : stands) starts.insert(beds_->choices()[i].stand.spec.weeks.first);
  for (const Week week : starts) {
    const int row = program_->row(Sense::AtMost, 0.0);
    program_->add(row, column, -1.0);
    for (const std::size_t i : stands) {
      if (beds_->choices()[i].stand.spec.weeks.contains(week)) program_->add(row, taken_[i], 1.0);
    }
  }
  return column;
}

void BedRows::forbid_or_charge(const std::vector<std::pair<int, int>>& pairs, Setting level,
                               double cost) {
  if (pairs.empty() || level < Setting::Warn) return;
  // A later season pays once, whichever of the earlier ones it is too near to.
  const int charged = level == Setting::Require ? -1 : program_->column(-cost, 1.0);
  for (const auto& [earlier, later] : pairs) {
    const int row = program_->row(Sense::AtMost, 1.0);
    program_->add(row, earlier, 1.0);
    program_->add(row, later, 1.0);
    if (charged >= 0) program_->add(row, charged, -1.0);
  }
}

void BedRows::relate(const BySeason& earlier, const std::map<catalogue::CropId, BySeason>& later,
                     catalogue::Break needed, RuleId rule) {
  if (needed.rec <= 0) return;
  for (const auto& [crop, seasons] : later) {
    const double worth = objective_->stand_worth(crop, beds_->area_m2);
    const double price = beds_->ledger->garden().costs.warn_share * worth;
    for (const auto& [season, column] : seasons) {
      std::vector<std::pair<int, int>> near;
      std::vector<std::pair<int, int>> nearish;
      for (const auto& [before, other] : earlier) {
        const int between = season - before - 1;
        if (between < 0 || between >= std::max(needed.min, needed.rec)) continue;
        (between < needed.min ? near : nearish).emplace_back(other, column);
      }
      forbid_or_charge(near, setting(rule), price);
      forbid_or_charge(nearish, setting(rule, 1), price);
    }
  }
}

}  // namespace aftercrop::bench
