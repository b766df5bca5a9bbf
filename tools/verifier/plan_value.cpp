#include "plan_value.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/ledger/walk.h"
#include "charges.h"

namespace aftercrop::verifier {
namespace {

using calendar::Week;

/// What all beds give and ask for together.
struct Sums {
  PlanValue value;
  Harvest harvest;
  std::map<Week, double> hours;
};

/// Charges one bed's stands and idle weeks. What began before the seasons is nobody's choice any
/// more: its harvest is given, its costs are not counted.
class BedCharges : public ledger::Visitor {
 public:
  BedCharges(const ledger::BedLedger& ledger, const Wanted& wanted, bool covers_bind, Sums& sums)
      : ledger_(&ledger),
        wanted_(&wanted),
        covers_bind_(covers_bind),
        sums_(&sums),
        from_(ledger.garden().seasons.first) {}

  void on_stand(const ledger::BedState& before, const ledger::Stand& stand,
                const garden::Planting& planting,
                const ledger::StandOutcome& /*outcome*/) override {
    const garden::Garden& garden = ledger_->garden();
    if (before.week < garden.seasons.first) {
      from_ = std::max(from_, stand.spec.weeks.past);
      return;
    }
    const double area = ledger_->bed().area.value();
    if (!decided(planting)) judge(before, stand);
    if (stand.spec.ending == catalogue::Ending::Failed) return;
    wanted_->add_harvest(stand.spec, area, sums_->harvest);
    const catalogue::Crop& crop = ledger_->catalogue().crop(stand.spec.crop);
    for (const auto& [week, hours] : hours_of(crop, stand.spec, area, garden.seasons)) {
      sums_->hours[week] += hours;
    }
  }

  void on_idle_week(const ledger::BedState& after, const nitrogen::WeekFlows& /*flows*/) override {
    if (after.week <= from_) return;
    sums_->value.terms[Term::BareWinter] +=
        bare_week_cost(after, ledger_->garden()) * ledger_->bed().area.value();
  }

  void charge_postings(const nitrogen::Journal& journal) {
    const garden::Costs& costs = ledger_->garden().costs;
    const double hectares = ledger_->bed().area.value() / kSquareMetresPerHa;
    Terms& terms = sums_->value.terms;
    for (const nitrogen::Posting& posting : journal.postings()) {
      if (posting.week < from_) continue;
      const double kg = posting.kg_per_ha * hectares;
      if (posting.cause == nitrogen::Cause::Bought) {
        terms[Term::Nitrogen] += costs.nitrogen_per_kg * kg;
      }
      if (posting.cause == nitrogen::Cause::Leaching) {
        terms[Term::Leached] -= costs.leached_per_kg * kg;
      }
    }
  }

 private:
  /// Stands of the garden file are told by the checker, not priced.
  [[nodiscard]] bool decided(const garden::Planting& planting) const {
    const auto& history = ledger_->garden().history;
    return std::any_of(history.begin(), history.end(),
                       [&](const garden::Planting& old) { return &old == &planting; });
  }

  void judge(const ledger::BedState& before, const ledger::Stand& stand) {
    const double worth = wanted_->stand_worth(stand.spec.crop, ledger_->bed().area.value());
    const rules::Occasion occasion{*ledger_, before, stand, covers_bind_};
    rules::Breaches breaches;
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    Terms& terms = sums_->value.terms;
    if (!charge_breaches(breaches, ledger_->garden(), worth, terms)) {
      sums_->value.objections.push_back(
          fmt::format("bed {}: {} from {} breaks a required rule", ledger_->bed().name,
                      occasion.crop().id, calendar::monday(stand.spec.weeks.first).text()));
    }
    charge_disease(*ledger_, before, stand, worth, terms);
  }

  const ledger::BedLedger* ledger_;
  const Wanted* wanted_;
  bool covers_bind_;
  Sums* sums_;
  Week from_;  ///< costs count from here on
};

void object_to_overlap(const std::vector<const garden::Planting*>& plantings,
                       const garden::Garden& garden, std::vector<std::string>& objections) {
  for (std::size_t i = 0; i + 1 < plantings.size(); ++i) {
    const Week past = garden::weeks_of(*plantings[i]).past;
    if (past <= garden.seasons.first || garden::weeks_of(*plantings[i + 1]).first >= past) continue;
    objections.push_back(fmt::format("bed {}: two stands share the week of {}",
                                     garden.bed(plantings[i]->bed).name,
                                     plantings[i + 1]->from.text()));
  }
}

double work_cost(const garden::Garden& garden, const std::map<Week, double>& hours) {
  if (garden.hands.hours_per_week <= 0.0) return 0.0;
  double over = 0.0;
  for (const auto& [week, asked] : hours) over += std::max(0.0, asked - hands_in(garden, week));
  return over * garden.costs.work_per_hour;
}

}  // namespace

PlanValue value_of(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                   const ledger::SiteClimates& climates, const garden::Plan& plan) {
  const Wanted wanted(garden, catalogue);
  const auto tracked = ledger::tracked_pathogens(garden, catalogue, false);
  const bool covers_bind = rules::covers_bind(garden, catalogue);
  Sums sums;
  sums.harvest = wanted.given();
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    const garden::BedId bed(i);
    const ledger::BedLedger ledger(catalogue, garden, bed, climates.of(garden.bed(bed).shelter),
                                   tracked);
    const auto plantings = ledger::plantings_of(bed, garden.history, plan.plantings);
    object_to_overlap(plantings, garden, sums.value.objections);
    nitrogen::Journal journal;
    BedCharges charges(ledger, wanted, covers_bind, sums);
    ledger::BedState state = ledger.opening();
    ledger::WalkOptions options;
    options.until = garden.seasons.past;
    options.journal = &journal;
    options.visitor = &charges;
    ledger::walk(ledger, state, plantings, options);
    charges.charge_postings(journal);
  }
  sums.value.terms[Term::Work] = work_cost(garden, sums.hours);
  sums.value.terms[Term::Wants] = wanted.worth(std::move(sums.harvest));
  return std::move(sums.value);
}

}  // namespace aftercrop::verifier
