#include "aftercrop/sequencer/appraisal.h"

#include <algorithm>

#include "aftercrop/ledger/walk.h"
#include "sequencer/objective.h"

namespace aftercrop::sequencer {
namespace {

/// One bed's part of the objective.
struct BedPart {
  Value costs;
  std::vector<double> supply;  ///< m2, one a supply row
  std::vector<double> hours;   ///< one a week of the seasons
};

/// Adds up what a bed's stands and idle weeks cost from the start of the seasons on.
class Adder : public ledger::Visitor {
 public:
  Adder(const ledger::BedLedger& ledger, const Objective& objective, bool clubroot_seen)
      : ledger_(&ledger), objective_(&objective), clubroot_seen_(clubroot_seen) {
    part.supply.assign(objective.supplies().size(), 0.0);
    part.hours.assign(static_cast<std::size_t>(ledger.garden().seasons.length().count()), 0.0);
  }

  void on_stand(const ledger::BedState& before, const ledger::Stand& stand,
                const garden::Planting& planting, const ledger::StandOutcome& outcome) override {
    const garden::Garden& garden = ledger_->garden();
    if (before.week < garden.seasons.first) return;
    const double area = ledger_->bed().area.value();
    const double worth = objective_->stand_worth(stand.spec.crop, area);
    objective_->charge_flows(outcome, area, part.costs);
    if (!planting.kept) charge_rules({*ledger_, before, stand, clubroot_seen_}, worth);
    if (stand.spec.ending == catalogue::Ending::Failed) return;
    for (const auto& [row, m2] : objective_->supply_of(stand.spec, area)) {
      part.supply[static_cast<std::size_t>(row)] += m2;
    }
    const catalogue::Crop& crop = ledger_->catalogue().crop(stand.spec.crop);
    if (!objective_->work_counts()) return;
    for (const auto& [week, spent] : hours_of(crop, stand.spec, area, garden.seasons)) {
      part.hours[static_cast<std::size_t>(week)] += spent;
    }
  }

  void on_idle_week(const ledger::BedState& after, const nitrogen::WeekFlows& flows) override {
    if (after.week <= ledger_->garden().seasons.first) return;
    ledger::StandOutcome idle;
    idle.flows = flows;
    idle.bare_weeks = after.bare_weeks >= ledger::kBareWeekThatCounts ? 1 : 0;
    objective_->charge_flows(idle, ledger_->bed().area.value(), part.costs);
  }

  BedPart part;

 private:
  void charge_rules(const rules::Occasion& occasion, double worth) {
    rules::Breaches breaches;
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    (void)objective_->charge_breaches(breaches, worth, part.costs);
    objective_->charge_disease(occasion.before, occasion.stand, worth, part.costs);
  }

  const ledger::BedLedger* ledger_;
  const Objective* objective_;
  bool clubroot_seen_;
};

}  // namespace

struct Appraisal::Parts {
  Parts(const garden::Garden& the_garden, const catalogue::Catalogue& catalogue,
        const ledger::SiteClimates& climates)
      : garden(&the_garden),
        objective(the_garden, catalogue),
        clubroot_seen(rules::covers_bind(the_garden, catalogue)) {
    const auto tracked = ledger::tracked_pathogens(the_garden, catalogue, false);
    for (std::size_t i = 0; i < the_garden.beds.size(); ++i) {
      ledgers.push_back(std::make_unique<ledger::BedLedger>(catalogue, the_garden, garden::BedId(i),
                                                            climates.of(the_garden.beds[i].shelter),
                                                            tracked));
    }
  }

  [[nodiscard]] BedPart part_of(std::size_t bed,
                                const std::vector<const garden::Planting*>& plantings) const {
    const ledger::BedLedger& ledger = *ledgers[bed];
    Adder adder(ledger, objective, clubroot_seen);
    ledger::BedState state = ledger.opening();
    ledger::WalkOptions options;
    options.until = garden->seasons.past;
    options.visitor = &adder;
    ledger::walk(ledger, state, plantings, options);
    return std::move(adder.part);
  }

  [[nodiscard]] Value sum(std::size_t changed, const BedPart* instead) const {
    Value value;
    std::vector<double> delivered(objective.supplies().size(), 0.0);
    std::vector<double> hours;
    for (std::size_t i = 0; i < beds.size(); ++i) {
      const BedPart& part = instead != nullptr && i == changed ? *instead : beds[i];
      value.nitrogen += part.costs.nitrogen;
      value.leached += part.costs.leached;
      value.disease += part.costs.disease;
      value.bare_winter += part.costs.bare_winter;
      value.warnings += part.costs.warnings;
      for (std::size_t s = 0; s < delivered.size(); ++s) delivered[s] += part.supply[s];
      hours.resize(std::max(hours.size(), part.hours.size()), 0.0);
      for (std::size_t w = 0; w < part.hours.size(); ++w) hours[w] += part.hours[w];
    }
    value.wants = objective.worth(delivered);
    value.work = objective.charge_work(hours);
    return value;
  }

  const garden::Garden* garden;
  Objective objective;
  bool clubroot_seen;
  std::vector<std::unique_ptr<ledger::BedLedger>> ledgers;
  std::vector<BedPart> beds;
};

Appraisal::Appraisal(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                     const ledger::SiteClimates& climates, const garden::Plan& plan)
    : parts_(std::make_unique<Parts>(garden, catalogue, climates)) {
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    parts_->beds.push_back(
        parts_->part_of(i, ledger::plantings_of(garden::BedId(i), garden.history, plan.plantings)));
  }
}

Appraisal::~Appraisal() = default;

Value Appraisal::whole() const { return parts_->sum(0, nullptr); }

Value Appraisal::with(garden::BedId bed,
                      const std::vector<const garden::Planting*>& plantings) const {
  const BedPart part = parts_->part_of(bed.place(), plantings);
  return parts_->sum(bed.place(), &part);
}

}  // namespace aftercrop::sequencer
