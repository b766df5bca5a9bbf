#include "sequencer/report.h"

#include <algorithm>
#include <cmath>

#include "sequencer/reasons.h"

namespace aftercrop::sequencer {
namespace {

constexpr double kMet = 0.95;  // our choice, as the checker has it: nearer than this counts as met

garden::Planting planting_of(const ledger::StandSpec& spec, garden::BedId bed,
                             const catalogue::Catalogue& rows) {
  garden::Planting planting;
  planting.bed = bed;
  planting.crop = spec.crop;
  planting.from = calendar::monday(spec.weeks.first);
  planting.to = calendar::monday(spec.weeks.past);
  planting.ending = spec.ending;
  if (spec.harvest.first < spec.harvest.past) {
    planting.harvest = {calendar::monday(spec.harvest.first), calendar::monday(spec.harvest.past)};
  }
  const catalogue::Crop& crop = rows.crop(spec.crop);
  const int plug_weeks = static_cast<int>(std::lround(crop.plug_weeks.typical));
  if (crop.start == catalogue::Start::Transplant && plug_weeks > 0) {
    planting.raised = planting.from.plus_days(-7 * plug_weeks);
  }
  return planting;
}

void write_plan(const Assignment& plan, const garden::Garden& garden,
                const std::vector<BedClass>& classes, Outcome& outcome) {
  outcome.plan.name = garden.name;
  for (std::size_t bed = 0; bed < plan.paths.size(); ++bed) {
    const BedClass& beds = classes[plan.bed_class[bed]];
    for (const int choice : plan.paths[bed].choices) {
      const Choice& taken = beds.choices()[static_cast<std::size_t>(choice)];
      if (taken.decided != nullptr) continue;
      outcome.plan.plantings.push_back(
          planting_of(taken.stand.spec, garden::BedId(bed), beds.ledger->catalogue()));
    }
  }
  for (const garden::Planting& planting : garden.history) {
    if (garden::weeks_of(planting).past > garden.seasons.first) {
      outcome.plan.plantings.push_back(planting);
    }
  }
  std::stable_sort(outcome.plan.plantings.begin(), outcome.plan.plantings.end(),
                   [](const auto& a, const auto& b) {
                     return std::pair(a.bed, a.from) < std::pair(b.bed, b.from);
                   });
}

/// Nitrogen of the finished plan, by folding every path once more.
void sum_nitrogen(const Assignment& plan, const garden::Garden& garden,
                  const std::vector<BedClass>& classes, Outcome& outcome) {
  for (std::size_t bed = 0; bed < plan.paths.size(); ++bed) {
    const BedClass& beds = classes[plan.bed_class[bed]];
    ledger::BedState state = beds.start;
    nitrogen::WeekFlows flows;
    for (const int choice : plan.paths[bed].choices) {
      const ledger::Stand& stand = beds.choices()[static_cast<std::size_t>(choice)].stand;
      flows += beds.ledger->idle(state, stand.spec.weeks.first).flows;
      flows += beds.ledger->advance(state, stand).flows;
    }
    flows += beds.ledger->idle(state, garden.seasons.past).flows;
    const double hectares = beds.area_m2 / 10000.0;
    outcome.bought_kg += flows.bought * hectares;
    outcome.leached_kg += flows.leached * hectares;
    outcome.fixed_kg += flows.fixed * hectares;
  }
}

void tell_wants(const Assignment& plan, const garden::Garden& garden,
                const std::vector<BedClass>& classes, const Objective& objective,
                Outcome& outcome) {
  const std::vector<garden::WantMet> met = wants_met_by(plan, garden, objective);
  outcome.wants.resize(garden.wants.size());
  for (const WantRow& want : objective.wants()) {
    WantResult& result = outcome.wants[want.want];
    result.want = want.want;
    result.met = met[want.want].met;
    if (result.met < kMet * garden.wants[want.want].amount) {
      result.why = reason_for(want, classes, objective, plan);
    }
  }
}

}  // namespace

std::vector<garden::WantMet> wants_met_by(const Assignment& plan, const garden::Garden& garden,
                                          const Objective& objective) {
  std::vector<double> met_m2;
  (void)objective.worth(totals_of(plan, objective).delivered_m2, &met_m2);
  std::vector<garden::WantMet> met(garden.wants.size());
  for (std::size_t i = 0; i < met.size(); ++i) met[i].want = i;
  for (const WantRow& want : objective.wants()) {
    const double share = want.amount_m2 > 0.0 ? met_m2[want.want] / want.amount_m2 : 1.0;
    met[want.want].met = garden.wants[want.want].amount * std::min(1.0, share);
  }
  return met;
}

Outcome report(const Assignment& assignment, const garden::Garden& garden,
               const std::vector<BedClass>& classes, const Objective& objective) {
  Outcome outcome;
  outcome.value = value_of(assignment, objective);
  write_plan(assignment, garden, classes, outcome);
  sum_nitrogen(assignment, garden, classes, outcome);
  tell_wants(assignment, garden, classes, objective, outcome);
  return outcome;
}

}  // namespace aftercrop::sequencer
