#pragma once

#include <algorithm>
#include <cmath>

#include "aftercrop/ledger/walk.h"
#include "support/plain_worth.h"

namespace aftercrop::support {

/// A plan's worth from its postings, its harvests and its breaches. Nothing that began before the
/// seasons is priced, and nothing after them but the rest of a stand.
class PlanReadded : private ledger::Visitor {
 public:
  PlanReadded(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
              const ledger::SiteClimates& climates, const garden::Plan& plan)
      : garden_(&garden), clubroot_seen_(rules::covers_bind(garden, catalogue)) {
    const auto tracked = ledger::tracked_pathogens(garden, catalogue, false);
    for (std::size_t i = 0; i < garden.beds.size(); ++i) {
      const garden::BedId bed(i);
      const ledger::BedLedger ledger(catalogue, garden, bed, climates.of(garden.bed(bed).shelter),
                                     tracked);
      ledger_ = &ledger;
      from_ = garden.seasons.first;
      nitrogen::Journal journal;
      ledger::BedState state = ledger.opening();
      ledger::WalkOptions options;
      options.until = garden.seasons.past;
      options.journal = &journal;
      options.visitor = this;
      ledger::walk(ledger, state, ledger::plantings_of(bed, garden.history, plan.plantings),
                   options);
      add_postings(journal, garden.bed(bed).area.value() / 10000.0);
    }
    value = worth_of(harvests_, garden, catalogue) - costs.total();
  }

  double value = 0.0;
  PlainCosts costs;

 private:
  void add_postings(const nitrogen::Journal& journal, double hectares) {
    for (const nitrogen::Posting& posting : journal.postings()) {
      if (posting.week < from_) continue;
      const double kg = std::abs(posting.kg_per_ha) * hectares;
      if (posting.cause == nitrogen::Cause::Bought)
        costs.nitrogen += garden_->costs.nitrogen_per_kg * kg;
      if (posting.cause == nitrogen::Cause::Leaching)
        costs.leached += garden_->costs.leached_per_kg * kg;
    }
  }

  void on_stand(const ledger::BedState& before, const ledger::Stand& stand, const garden::Planting&,
                const ledger::StandOutcome&) override {
    if (before.week < garden_->seasons.first) {
      from_ = std::max(from_, stand.spec.weeks.past);
      return;
    }
    const double area = ledger_->bed().area.value();
    const double worth = stand_worth(*garden_, stand.spec.crop, area);
    const rules::Occasion occasion{*ledger_, before, stand, clubroot_seen_};
    rules::Breaches breaches;
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    for (const rules::Breach& breach : breaches) {
      const bool warns = rules::setting_of(breach, garden_->policy) == garden::Setting::Warn;
      if (warns) costs.other_warnings += garden_->costs.warn_share * worth;
    }
    costs.disease += disease_cost(*garden_, before, stand, worth);
    add_harvest(harvests_, stand.spec, area);
  }

  void on_idle_week(const ledger::BedState& after, const nitrogen::WeekFlows&) override {
    if (after.week <= garden_->seasons.first || after.bare_weeks < ledger::kBareWeekThatCounts)
      return;
    if (garden_->policy.of(garden::RuleId::BareWinter) < garden::Setting::Warn) return;
    costs.bare += garden_->costs.bare_week_per_m2 * ledger_->bed().area.value();
  }

  const garden::Garden* garden_;
  const ledger::BedLedger* ledger_ = nullptr;
  bool clubroot_seen_;
  calendar::Week from_;
  Harvests harvests_;
};

}  // namespace aftercrop::support
