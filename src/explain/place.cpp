#include "explain/place.h"

#include <algorithm>

#include "aftercrop/ledger/walk.h"
#include "explain/standing.h"

namespace aftercrop::explain {
namespace {

using calendar::Week;
using calendar::Weeks;
using diagnostic::Diagnostic;
using diagnostic::Severity;
using garden::Planting;

constexpr int kRunOnWeeks = 52;

check::Scope scope_of(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                      const garden::Plan& plan) {
  check::Scope scope;
  scope.planned = plan.made_by.starts_with("aftercrop");
  scope.clubroot_seen = rules::covers_bind(garden, catalogue);
  return scope;
}

bool same_breach(const check::Told& a, const check::BedRun& in_a, const check::Told& b,
                 const check::BedRun& in_b) {
  return a.breach.rule == b.breach.rule && a.severity == b.severity &&
         in_a.lines[a.line].planting == in_b.lines[b.line].planting;
}

double bought_g(const check::BedRun& run, const garden::Bed& bed) {
  double grams = 0.0;
  for (const ledger::StandLine& line : run.lines) {
    grams += line.outcome.flows.bought * bed.area.value() / 10.0;
  }
  return grams;
}

}  // namespace

Place::Place(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
             const ledger::SiteClimates& climates, const garden::Plan& plan,
             const Question& question)
    : garden_(&garden),
      catalogue_(&catalogue),
      plan_(&plan),
      bed_(question.bed),
      ledger_(catalogue, garden, question.bed, climates.of(garden.bed(question.bed).shelter),
              ledger::tracked_pathogens(garden, catalogue, true)),
      case_(garden, ledger_, question.bed, scope_of(garden, catalogue, plan)),
      appraisal_(garden, catalogue, climates, plan),
      now_(case_.run(ledger::plantings_of(question.bed, garden.history, plan.plantings))),
      value_(appraisal_.whole()) {
  bought_now_g_ = bought_g(now_, bed());
  find_room(question.week);
}

void Place::find_room(Week week) {
  room_ = {std::max(ledger_.opening().week, garden_->seasons.first),
           garden_->seasons.past + Weeks(kRunOnWeeks)};
  for (const ledger::StandLine& line : now_.lines) {
    if (line.stand.spec.weeks.contains(week)) stands_ = line.planting;
  }
  for (const ledger::StandLine& line : now_.lines) {
    const calendar::WeekSpan weeks = line.stand.spec.weeks;
    if (line.planting == stands_) {
      room_.first = std::min(room_.first, weeks.first);
    } else if (weeks.past <= week) {
      room_.first = std::max(room_.first, weeks.past);
    } else if (weeks.first > week && weeks.first < room_.past) {
      room_.past = weeks.first;
      next_ = line.planting;
    }
  }
  if (stands_ == nullptr) return;
  // A stand that began before the seasons keeps its own first week.
  for (const ledger::StandLine& line : now_.lines) {
    if (line.planting != stands_) continue;
    if (line.stand.spec.weeks.first < garden_->seasons.first) {
      room_.first = line.stand.spec.weeks.first;
    }
  }
}

const ledger::StandLine* Place::line() const {
  for (const ledger::StandLine& line : now_.lines) {
    if (line.planting == stands_ && stands_ != nullptr) return &line;
  }
  return nullptr;
}

std::vector<const Planting*> Place::list_with(const Planting* instead) const {
  std::vector<const Planting*> plantings = now_.plantings;
  std::erase(plantings, stands_);
  if (instead != nullptr) plantings.push_back(instead);
  std::stable_sort(plantings.begin(), plantings.end(),
                   [](const auto* a, const auto* b) { return a->from < b->from; });
  return plantings;
}

Place::Trial Place::with(const Planting* instead) const {
  Trial trial;
  const std::vector<const Planting*> plantings = list_with(instead);
  trial.value = appraisal_.with(bed_, plantings);
  trial.run = case_.run(plantings);
  trial.bought_g = bought_g(trial.run, bed());
  return trial;
}

std::vector<Reason> Place::standing_reasons() const {
  const ledger::StandLine& stand = *line();
  std::vector<const Planting*> same_crop;
  for (std::size_t i = 0; i < garden_->beds.size(); ++i) {
    for (const Planting* one :
         ledger::plantings_of(garden::BedId(i), garden_->history, plan_->plantings)) {
      if (one->crop == stands_->crop) same_crop.push_back(one);
    }
  }
  Standing standing{*garden_, *catalogue_, ledger_.tracked(), stand, nullptr, next_};
  for (const ledger::StandLine& other : now_.lines) {
    if (&other == &stand) break;
    standing.previous = other.planting;
  }
  const calendar::WeekSpan weeks = stand.stand.spec.weeks;
  for (Week week = weeks.first; week < weeks.past; ++week) {
    const bool begins = ledger_.winter(week) && !ledger_.winter(week - Weeks(1));
    standing.winter = standing.winter || begins;
  }
  return explain::standing_reasons(standing,
                                   stands_of(*garden_, *catalogue_, std::move(same_crop)));
}

std::vector<Diagnostic> Place::new_findings(const Trial& trial) const {
  std::vector<Diagnostic> found;
  for (const check::Told& told : trial.run.told) {
    if (told.severity < Severity::Warning) continue;
    const bool known = std::any_of(now_.told.begin(), now_.told.end(), [&](const auto& old) {
      return same_breach(told, trial.run, old, now_);
    });
    // In a plan of ours a shortfall is a dose, and counted as nitrogen to buy.
    if (known || (told.breach.rule == garden::RuleId::NitrogenShort && case_.scope().planned)) {
      continue;
    }
    const ledger::StandLine& line = trial.run.lines[told.line];
    const rules::Rule& rule = *rules::find_rule(told.breach.rule);
    const rules::Occasion occasion{ledger_, line.before, line.stand, case_.scope().clubroot_seen};
    const rules::Words words = rule.describe(told.breach, occasion);
    Diagnostic finding;
    finding.id = std::string(garden::card(told.breach.rule).name);
    finding.severity = told.severity;
    finding.message = words.message;
    finding.help = words.help;
    finding.bed = bed().name;
    finding.week = line.stand.spec.weeks.first;
    finding.measure =
        diagnostic::Measure{told.breach.computed, told.breach.limit, std::string(told.breach.unit)};
    found.push_back(std::move(finding));
  }
  return found;
}

}  // namespace aftercrop::explain
