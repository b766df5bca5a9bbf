#include "aftercrop/check/bed_run.h"

#include <algorithm>

#include "aftercrop/ledger/walk.h"
#include "check/bed_rules.h"

namespace aftercrop::check {
namespace {

using diagnostic::Severity;
using garden::RuleId;
using garden::Setting;

/// Collects what a walk along a bed shows.
class Watcher : public ledger::Visitor {
 public:
  Watcher(const ledger::BedLedger& ledger, calendar::Week from, BedRun& run)
      : ledger_(&ledger), from_(from), run_(&run), bare_(from) {}

  void on_stand(const ledger::BedState& before, const ledger::Stand& stand,
                const garden::Planting& planting, const ledger::StandOutcome& outcome) override {
    bare_.covered();
    run_->lines.push_back({&planting, stand, outcome, before});
    was_winter_ = ledger_->winter(stand.spec.weeks.past - calendar::Weeks(1));
  }

  void on_idle_week(const ledger::BedState& after, const nitrogen::WeekFlows& /*flows*/) override {
    bare_.idle_week(after);
    const calendar::Week week = after.week - calendar::Weeks(1);
    const bool winter = ledger_->winter(week);
    if (winter && !was_winter_ && week >= from_) {
      const auto* last = run_->lines.empty() ? nullptr : run_->lines.back().planting;
      if (const auto left = leftover_in(after, week, last, ledger_->catalogue().coefficients))
        run_->leftovers.push_back(*left);
    }
    was_winter_ = winter;
  }

  void finish() {
    bare_.covered();
    run_->winters = bare_.spells();
  }

 private:
  const ledger::BedLedger* ledger_;
  calendar::Week from_;
  BedRun* run_;
  BareWatch bare_;
  bool was_winter_ = true;  // the winter that runs when the records begin is not judged
};

}  // namespace

Severity severity_of(Setting setting) {
  if (setting == Setting::Require) return Severity::Error;
  return setting == Setting::Warn ? Severity::Warning : Severity::Note;
}

BedRun BedCase::run(std::vector<const garden::Planting*> plantings) const {
  BedRun run;
  run.plantings = std::move(plantings);
  ledger::BedState state = ledger_->opening();
  const calendar::Week from = scope_.history_only ? state.week : garden_->seasons.first;
  Watcher watcher(*ledger_, from, run);
  ledger::WalkOptions options;
  options.until = garden_->seasons.past;
  options.visitor = &watcher;
  ledger::walk(*ledger_, state, run.plantings, options);
  watcher.finish();
  if (scope_.history_only) run.winters.clear();
  for (std::size_t i = 0; i < run.lines.size(); ++i) {
    const bool ahead = run.lines[i].stand.spec.weeks.first >= garden_->seasons.first;
    if (ahead || scope_.history_only) judge_line(i, run);
  }
  if (garden_->policy.of(RuleId::BedDoubleBooked) != Setting::Off) {
    run.overlaps = overlaps_in(run.plantings);
  }
  count(run);
  return run;
}

void BedCase::judge_line(std::size_t line, BedRun& run) const {
  const ledger::StandLine& here = run.lines[line];
  const rules::Occasion occasion{*ledger_, here.before, here.stand, scope_.clubroot_seen};
  rules::Breaches breaches;
  rules::judge_before(occasion, breaches);
  rules::judge_stand(occasion, breaches);
  rules::judge_outcome(occasion, here.outcome, breaches);
  const calendar::Week week = here.stand.spec.weeks.first;
  // What a grower did or decided already is told, but it is not the plan's mistake.
  const bool past = week < garden_->seasons.first;
  const bool decided = here.planting->kept || (past && !scope_.history_only);
  for (const rules::Breach& breach : breaches) {
    const Setting setting = rules::setting_of(breach, garden_->policy);
    if (setting == Setting::Off) continue;
    Told told{breach, line, severity_of(setting), nullptr};
    told.accepted = rules::exception_for(garden_->policy, garden_->bed(bed_), breach.rule, week);
    if (decided || told.accepted != nullptr) told.severity = Severity::Note;
    // Nothing can be forbidden any more of what has been.
    if (scope_.history_only) told.severity = std::min(told.severity, Severity::Warning);
    run.told.push_back(told);
  }
}

bool BedCase::forbidden(const ledger::BedState& before, const ledger::Stand& stand,
                        rules::Breaches& out) const {
  const rules::Occasion occasion{*ledger_, before, stand, scope_.clubroot_seen};
  rules::judge_before(occasion, out);
  rules::judge_stand(occasion, out);
  return std::any_of(out.begin(), out.end(), [&](const rules::Breach& breach) {
    return rules::setting_of(breach, garden_->policy) == Setting::Require;
  });
}

void BedCase::count(BedRun& run) const {
  const auto add = [&](Severity severity, int number) {
    if (severity == Severity::Error) run.errors += number;
    if (severity == Severity::Warning) run.warnings += number;
  };
  for (const Told& told : run.told) add(told.severity, 1);
  const auto rows = [&](RuleId rule, std::size_t number) {
    const Setting setting = garden_->policy.of(rule);
    if (setting != Setting::Off) add(severity_of(setting), static_cast<int>(number));
  };
  rows(RuleId::BedDoubleBooked, run.overlaps.size());
  rows(RuleId::BareWinter, run.winters.size());
  rows(RuleId::NitrogenSurplus, run.leftovers.size());
}

}  // namespace aftercrop::check
