#include "rules/table.h"

#include <algorithm>
#include <array>

namespace aftercrop::rules {
namespace {

constexpr int kLevels = 4;

const std::array<Rule, 15>& table() {
  static const std::array<Rule, 15> kTable = {never_free(),
                                              family_break(),
                                              prone_on_infected(),
                                              host_return(),
                                              sown_out_of_window(),
                                              frost_before_harvest(),
                                              plant_back(),
                                              immobilisation(),
                                              biofumigant_unready(),
                                              legume_before_heavy_feeder(),
                                              biofumigant_before_prone(),
                                              nitrogen_short(),
                                              roots_pulled(),
                                              cover_ended_late(),
                                              manure_before_harvest()};
  return kTable;
}

bool switched_off(const Occasion& occasion, garden::RuleId id) {
  return occasion.ledger.garden().policy.of(id) == garden::Setting::Off;
}

}  // namespace

std::span<const Rule> stand_rules() { return table(); }

const Rule* find_rule(garden::RuleId id) {
  for (const Rule& rule : table()) {
    if (rule.id == id) return &rule;
  }
  return nullptr;
}

garden::Setting setting_of(const Breach& breach, const garden::Policy& policy) {
  const int top = static_cast<int>(policy.of(breach.rule));
  return static_cast<garden::Setting>(std::clamp(top - breach.level, 0, kLevels - 1));
}

const garden::Exception* exception_for(const garden::Policy& policy, const garden::Bed& bed,
                                       garden::RuleId rule, calendar::Week week) {
  for (const garden::Exception& exception : policy.exceptions) {
    if (exception.rule != rule) continue;
    if (exception.bed != bed.name && exception.bed != bed.whole) continue;
    if (exception.until && calendar::monday(week) > *exception.until) continue;
    return &exception;
  }
  return nullptr;
}

void judge_before(const Occasion& occasion, Breaches& out) {
  for (const Rule& rule : table()) {
    if (rule.judge != nullptr && !switched_off(occasion, rule.id)) rule.judge(occasion, out);
  }
}

void judge_stand(const Occasion& occasion, Breaches& out) {
  for (const Rule& rule : table()) {
    if (rule.judge_stand != nullptr && !switched_off(occasion, rule.id)) {
      rule.judge_stand(occasion, out);
    }
  }
}

void judge_outcome(const Occasion& occasion, const ledger::StandOutcome& outcome, Breaches& out) {
  for (const Rule& rule : table()) {
    if (rule.judge_outcome != nullptr && !switched_off(occasion, rule.id)) {
      rule.judge_outcome(occasion, outcome, out);
    }
  }
}

bool covers_bind(const garden::Garden& garden, const catalogue::Catalogue& catalogue) {
  for (const catalogue::BreakGroup& group : catalogue.groups) {
    if (group.cover_binds_if_seen.empty()) continue;
    const auto trigger = catalogue.find_pathogen(group.cover_binds_if_seen);
    for (const garden::Sighting& sighting : garden.sightings) {
      if (trigger == sighting.disease) return true;
    }
  }
  return false;
}

}  // namespace aftercrop::rules
