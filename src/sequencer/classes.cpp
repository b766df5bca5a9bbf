#include "sequencer/classes.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "aftercrop/ledger/walk.h"
#include "sequencer/candidates.h"

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr int kRunOnWeeks = 52;

/// Pathogens with evidence, or half a neighbour's, in this bed; the others have no load to carry.
std::vector<catalogue::PathogenId> pathogens_here(const garden::Garden& garden, garden::BedId bed) {
  std::vector<catalogue::PathogenId> here;
  const auto add = [&](catalogue::PathogenId id) {
    if (std::find(here.begin(), here.end(), id) == here.end()) here.push_back(id);
  };
  for (const auto& sighting : garden.sightings) {
    if (sighting.bed == bed) add(sighting.disease);
  }
  for (const auto& test : garden.tests) {
    if (test.bed == bed && test.disease) add(*test.disease);
  }
  std::sort(here.begin(), here.end());
  return here;
}

bool alike(const garden::Bed& a, const garden::Bed& b) {
  return a.area == b.area && a.soil == b.soil && a.shelter == b.shelter &&
         a.organic_matter_pct == b.organic_matter_pct && a.ph == b.ph && a.watered == b.watered &&
         a.poorly_drained == b.poorly_drained && a.bought_mix == b.bought_mix;
}

/// What will still happen to a bed from outside. A spreading of manure binds what is harvested
/// after it for some time.
using Outside = std::vector<std::tuple<int, int, double>>;
Outside ahead_of(const garden::Garden& garden, garden::BedId bed,
                 const catalogue::NitrogenCoefficients& k) {
  const int manure_days = static_cast<int>(k.manure_days_touching);
  Outside ahead;
  for (const auto& one : garden.applications) {
    if (one.bed == bed &&
        one.date.plus_days(manure_days) >= calendar::monday(garden.seasons.first)) {
      ahead.emplace_back(one.date.serial(), static_cast<int>(one.material.place()), one.kg_per_m2);
    }
  }
  for (const auto& one : garden.tests) {
    if (one.bed == bed && calendar::week_of(one.date) >= garden.seasons.first) {
      ahead.emplace_back(one.date.serial(), -1, one.nitrate_n_ppm.value_or(one.count));
    }
  }
  for (const auto& one : garden.sightings) {
    if (one.bed == bed && calendar::week_of(one.date) >= garden.seasons.first) {
      ahead.emplace_back(one.date.serial(), -2, static_cast<double>(one.severity));
    }
  }
  return ahead;
}

/// The stands of the plan that is being changed.
std::vector<ledger::StandSpec> earlier_for(const garden::Garden& garden, garden::BedId bed,
                                           Week from) {
  std::vector<ledger::StandSpec> earlier;
  for (const garden::Planting& planting : garden.earlier) {
    if (planting.bed != bed || garden::weeks_of(planting).first < from) continue;
    if (garden::weeks_of(planting).first >= garden.seasons.past) continue;
    earlier.push_back(ledger::spec_of(planting));
  }
  return earlier;
}

bool same_stand(const ledger::StandSpec& a, const ledger::StandSpec& b) {
  return a.crop == b.crop && a.weeks == b.weeks && a.harvest == b.harvest && a.ending == b.ending;
}

std::vector<const garden::Planting*> decided_for(const garden::Garden& garden, garden::BedId bed,
                                                 Week from) {
  std::vector<const garden::Planting*> decided;
  for (const garden::Planting& planting : garden.history) {
    if (planting.bed == bed && garden::weeks_of(planting).first >= from) {
      decided.push_back(&planting);
    }
  }
  return decided;
}

class Builder {
 public:
  Builder(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
          const ledger::SiteClimates& climates, const Objective& objective)
      : garden_(&garden), catalogue_(&catalogue), climates_(&climates), objective_(&objective) {}

  std::vector<BedClass> run() {
    for (std::size_t i = 0; i < garden_->beds.size(); ++i) place(garden::BedId(i));
    for (std::size_t g = 0; g < classes_.size(); ++g) {
      if (!share_kind(g)) fill(classes_[g]);
    }
    return std::move(classes_);
  }

 private:
  void place(garden::BedId bed) {
    const garden::Bed& row = garden_->bed(bed);
    auto ledger = std::make_unique<ledger::BedLedger>(
        *catalogue_, *garden_, bed, climates_->of(row.shelter), pathogens_here(*garden_, bed));
    ledger::BedState state = ledger->opening();
    std::vector<const garden::Planting*> past;
    for (const garden::Planting& planting : garden_->history) {
      const bool begun = garden::weeks_of(planting).first < garden_->seasons.first;
      if (planting.bed == bed && begun) past.push_back(&planting);
    }
    ledger::WalkOptions options;
    options.until = garden_->seasons.first;
    ledger::walk(*ledger, state, past, options);
    const Outside outside = ahead_of(*garden_, bed, catalogue_->coefficients.nitrogen);
    const bool decided = !decided_for(*garden_, bed, state.week).empty() ||
                         !earlier_for(*garden_, bed, state.week).empty();
    for (std::size_t i = 0; i < classes_.size() && !decided; ++i) {
      BedClass& one = classes_[i];
      const garden::BedId first = one.beds.front();
      if (decided_[i] || !alike(garden_->bed(first), row) || !(one.start == state)) continue;
      if (one.ledger->tracked() != ledger->tracked()) continue;
      if (ahead_of(*garden_, first, catalogue_->coefficients.nitrogen) != outside) continue;
      one.beds.push_back(bed);
      return;
    }
    BedClass made;
    made.beds.push_back(bed);
    made.area_m2 = row.area.value();
    made.ledger = std::move(ledger);
    made.start = std::move(state);
    made.clubroot_seen = rules::covers_bind(*garden_, *catalogue_);
    classes_.push_back(std::move(made));
    decided_.push_back(decided);
  }

  /// The same stands can be had, and promise the same: soil and pH only come in by what lives
  /// there.
  bool of_a_kind(const BedClass& one, const BedClass& other) const {
    const garden::Bed& a = one.ledger->bed();
    const garden::Bed& b = other.ledger->bed();
    if (a.area != b.area || a.shelter != b.shelter || one.start.week != other.start.week)
      return false;
    if (one.ledger->tracked() != other.ledger->tracked()) return false;
    if (!one.ledger->tracked().empty() && (a.ph != b.ph || a.poorly_drained != b.poorly_drained))
      return false;
    const auto& k = catalogue_->coefficients.nitrogen;
    return ahead_of(*garden_, one.beds.front(), k) == ahead_of(*garden_, other.beds.front(), k);
  }

  /// A class takes its kind from an earlier one where it can.
  bool share_kind(std::size_t place) {
    if (decided_[place]) return false;
    BedClass& mine = classes_[place];
    for (std::size_t i = 0; i < place; ++i) {
      const BedClass& other = classes_[i];
      if (decided_[i] || !of_a_kind(other, mine)) continue;
      mine.kind = other.kind;
      return true;
    }
    return false;
  }

  const std::vector<ledger::StandSpec>& specs_for(garden::Shelter shelter, bool seen) {
    const auto key = std::pair(shelter, seen);
    auto found = specs_.find(key);
    if (found == specs_.end()) {
      found = specs_
                  .emplace(key, candidate_stands(*garden_, *catalogue_, climates_->of(shelter),
                                                 *objective_, seen))
                  .first;
    }
    return found->second;
  }

  void offer(const BedClass& one, const ledger::StandSpec& spec, bool earlier, BedKind& kind,
             std::vector<graph::Arc>& arcs) {
    Choice choice;
    choice.stand = one.ledger->make_stand(spec);
    choice.worth = objective_->stand_worth(spec.crop, one.area_m2);
    rules::Breaches breaches;
    const rules::Occasion occasion{*one.ledger, one.start, choice.stand, one.clubroot_seen};
    rules::judge_stand(occasion, breaches);
    if (!objective_->charge_breaches(breaches, choice.worth, choice.fixed)) return;
    choice.earlier = earlier;
    if (!garden_->earlier.empty()) {
      const double price = objective_->charge_change(choice.worth);
      choice.fixed.changes = earlier ? -price : price;
    }
    add(one, std::move(choice), kind, arcs, false);
  }

  void fill(BedClass& one) {
    const garden::Bed& bed = one.ledger->bed();
    const auto earlier = earlier_for(*garden_, one.beds.front(), one.start.week);
    auto kind = std::make_shared<BedKind>();
    std::vector<graph::Arc> arcs;
    for (const ledger::StandSpec& spec : earlier) offer(one, spec, true, *kind, arcs);
    for (const ledger::StandSpec& spec : specs_for(bed.shelter, !one.ledger->tracked().empty())) {
      const catalogue::Crop& crop = catalogue_->crop(spec.crop);
      const bool too_small = !crop.is_cover() && one.area_m2 < 0.95 * crop.smallest_stand_m2;
      if (too_small || spec.weeks.first < one.start.week) continue;
      const bool offered = std::any_of(earlier.begin(), earlier.end(),
                                       [&](const auto& old) { return same_stand(old, spec); });
      if (!offered) offer(one, spec, false, *kind, arcs);
    }
    std::vector<WeekSpan> taken;
    for (const garden::Planting* planting :
         decided_for(*garden_, one.beds.front(), one.start.week)) {
      Choice choice;
      ledger::StandSpec spec = ledger::spec_of(*planting);
      const Week last = garden_->seasons.past + Weeks(kRunOnWeeks);
      spec.weeks.past = std::min(spec.weeks.past, last);
      spec.harvest.past = std::min(spec.harvest.past, last);
      if (spec.weeks.first >= spec.weeks.past || spec.weeks.first >= garden_->seasons.past)
        continue;
      if (!taken.empty()) spec.weeks.first = std::max(spec.weeks.first, taken.back().past);
      if (spec.weeks.first >= spec.weeks.past) continue;
      spec.harvest.first = std::clamp(spec.harvest.first, spec.weeks.first, spec.weeks.past);
      spec.harvest.past = std::clamp(spec.harvest.past, spec.harvest.first, spec.weeks.past);
      choice.stand = one.ledger->make_stand(spec);
      choice.worth = objective_->stand_worth(spec.crop, one.area_m2);
      choice.decided = planting;
      taken.push_back(spec.weeks);
      add(one, std::move(choice), *kind, arcs, true);
    }
    const WeekSpan weeks{one.start.week, std::max(one.start.week, garden_->seasons.past)};
    kind->graph = std::make_unique<graph::BedTimeGraph>(weeks, weeks.past + Weeks(kRunOnWeeks),
                                                        std::move(arcs), taken);
    one.kind = std::move(kind);
  }

  void add(const BedClass& one, Choice choice, BedKind& kind, std::vector<graph::Arc>& arcs,
           bool fixed) {
    const ledger::StandSpec& spec = choice.stand.spec;
    choice.supply = objective_->supply_of(spec, one.area_m2);
    if (objective_->work_counts()) {
      choice.hours = hours_of(catalogue_->crop(spec.crop), spec, one.area_m2, garden_->seasons);
    }
    arcs.push_back(
        {spec.weeks.first, spec.weeks.past, static_cast<int>(kind.choices.size()), fixed});
    kind.choices.push_back(std::move(choice));
  }

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const ledger::SiteClimates* climates_;
  const Objective* objective_;
  std::vector<BedClass> classes_;
  std::vector<bool> decided_;
  std::map<std::pair<garden::Shelter, bool>, std::vector<ledger::StandSpec>> specs_;
};

}  // namespace

std::vector<BedClass> bed_classes(const garden::Garden& garden,
                                  const catalogue::Catalogue& catalogue,
                                  const ledger::SiteClimates& climates,
                                  const Objective& objective) {
  return Builder(garden, catalogue, climates, objective).run();
}

}  // namespace aftercrop::sequencer
