#include "aftercrop/ledger/bed_ledger.h"

#include <algorithm>
#include <cassert>

#include "aftercrop/nitrogen/residue.h"

namespace aftercrop::ledger {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr int kYearWeeks = 52;

bool leaves_mulch(catalogue::Ending ending) {
  using catalogue::Ending;
  return ending == Ending::CutRootsLeft || ending == Ending::Mown || ending == Ending::Tarped ||
         ending == Ending::Winterkilled;
}

/// An event that changed a load from `before` to what the state holds.
void note(std::vector<LoadEvent>* events, const BedState& state, std::size_t tracked, double before,
          LoadEvent::Cause cause, catalogue::CropId crop = {}) {
  if (events == nullptr) return;
  events->push_back(
      {state.week, tracked, state.loads[tracked].central, before, -1.0, -1.0, cause, crop});
}

double met(const BedState& state, const Stand& stand, std::size_t tracked, double Load::*of) {
  const StandLoad& effect = stand.loads[tracked];
  const double load = state.loads[tracked].*of * effect.infection;
  if (effect.worse_with < 0) return load;
  const double other = state.loads[static_cast<std::size_t>(effect.worse_with)].*of;
  return other >= effect.worse_from ? load * effect.worse_factor : load;
}

}  // namespace

double met_cautious(const BedState& state, const Stand& stand, std::size_t tracked) {
  return met(state, stand, tracked, &Load::cautious);
}

double met_central(const BedState& state, const Stand& stand, std::size_t tracked) {
  return met(state, stand, tracked, &Load::central);
}

std::size_t BedLedger::place(Week week) const {
  const int offset = std::clamp((week - covered_.first).count(), 0, covered_.length().count() - 1);
  return static_cast<std::size_t>(offset);
}

bool BedLedger::winter(Week week) const { return winter_[place(week)] != 0; }

double BedLedger::drainage_mm(Week week, climate::Ground ground) const {
  return drainage_->mm(week, ground);
}

BedState BedLedger::opening() const {
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  BedState state;
  state.week = opening_week_;
  state.known_since = opening_week_;
  state.bare_weeks = kUnknownWinter;
  const auto& curves = site_->curves();
  const int day = calendar::monday(opening_week_).day_of_year();
  const double since_coldest = day - curves.coldest_day() + (day < curves.coldest_day() ? 365 : 0);
  const bool spring = since_coldest < 182.0;
  state.pools.mineral = spring ? k.opening_mineral_spring : k.opening_mineral_autumn;
  state.pools.slow = k.opening_slow;
  for (const catalogue::PathogenId id : tracked_) {
    Load load;
    if (catalogue_->pathogen(id).background) {
      load.cautious = load.central = catalogue_->coefficients.disease.background_load;
    }
    state.loads.push_back(load);
  }
  return state;
}

void BedLedger::apply_tests(BedState& state, nitrogen::Journal* journal) const {
  for (const NitrateTest& test : tests_) {
    if (test.week != state.week) continue;
    const double difference = test.mineral - state.pools.mineral;
    if (state.pools.mineral > 0.0) {
      state.pools.fresh *= test.mineral / state.pools.mineral;  // how much, not how deep
    }
    state.pools.mineral = test.mineral;
    if (journal != nullptr) {
      journal->post(state.week, nitrogen::Pool::Mineral, difference, nitrogen::Cause::SoilTest);
    }
  }
}

void BedLedger::apply_events(BedState& state, bool after_stand,
                             std::vector<LoadEvent>* events) const {
  for (const Event& event : events_) {
    if (event.week != state.week || event.after_stand != after_stand) continue;
    Load& load = state.loads[event.tracked];
    const double before = load.central;
    load.cautious = event.test ? event.load : std::max(load.cautious, event.load);
    load.central = event.test ? event.load : std::max(load.central, event.load);
    load.seen = load.seen || event.evidence;
    note(events, state, event.tracked, before,
         event.test ? LoadEvent::Cause::Test : LoadEvent::Cause::Sighting);
  }
}

void BedLedger::live_loads(BedState& state, const Stand* stand) const {
  for (std::size_t i = 0; i < state.loads.size(); ++i) {
    const disease::LoadMap& map = stand != nullptr ? stand->loads[i].week : rest_[i];
    Load& load = state.loads[i];
    load.cautious = map(load.cautious);
    load.central = map(load.central);
    if (stand != nullptr && stand->loads[i].host) load.hosted = state.week;
  }
}

// What was not taken up is missing in tops and roots alike; their dry matter stays as planned, but
// tops do not fall below the least nitrogen content.
nitrogen::StandingCrop BedLedger::standing_crop(const BedState& state, const Stand& stand) const {
  const double planned = stand.demand.total() - stand.demand.harvest;
  const double share = planned > 0.0 ? std::min(1.0, state.pools.crop / planned) : 0.0;
  nitrogen::StandingCrop standing;
  standing.crop = stand.spec.crop;
  standing.roots_kg_ha = std::min(state.pools.crop, stand.demand.below_ground * share);
  standing.tops_kg_ha = state.pools.crop - standing.roots_kg_ha;
  standing.roots_dry_t_ha = stand.roots_dry_t_ha;
  const double least = 10.0 * catalogue_->coefficients.nitrogen.least_n_pct;
  standing.tops_dry_t_ha = std::min(stand.tops_dry_t_ha, standing.tops_kg_ha / least);
  return standing;
}

void BedLedger::shed_tops(BedState& state, const Stand& stand, nitrogen::Journal* journal) const {
  const nitrogen::StandingCrop standing = standing_crop(state, stand);
  state.pools.crop = standing.roots_kg_ha;
  if (journal != nullptr) {
    journal->post(state.week, nitrogen::Pool::Crop, -standing.tops_kg_ha,
                  nitrogen::Cause::ResidueMulched, stand.spec.crop);
  }
  nitrogen::lay_as_mulch(state.pools,
                         {standing.tops_kg_ha, standing.tops_dry_t_ha, stand.spec.crop},
                         catalogue_->coefficients.nitrogen, {state.week, journal});
}

void BedLedger::finish_stand(BedState& state, const Stand& stand, nitrogen::Journal* journal,
                             std::vector<LoadEvent>* events) const {
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  nitrogen::end_stand(state.pools, standing_crop(state, stand), stand.spec.ending, k,
                      {state.week, journal});

  apply_events(state, true, events);
  for (std::size_t i = 0; i < state.loads.size(); ++i) {
    const StandLoad& effect = stand.loads[i];
    Load& load = state.loads[i];
    const double before = load.central;
    if (effect.host) note(events, state, i, before, LoadEvent::Cause::Host, stand.spec.crop);
    if (effect.kept_central == 1.0 && effect.kept_cautious == 1.0) continue;
    load.cautious *= effect.kept_cautious;
    load.central *= effect.kept_central;
    if (effect.effective) {
      load.treated = state.week;
      load.treated_quality = stand.fumigation.q;
    }
    note(events, state, i, before, LoadEvent::Cause::Kill, stand.spec.crop);
  }

  const catalogue::Crop& crop = catalogue_->crop(stand.spec.crop);
  auto& seasons = stand.cover ? state.cover_season : state.crop_season;
  seasons[crop.group.place()] = static_cast<std::int16_t>(stand.season_as_previous);
  for (const catalogue::MixturePart& part : crop.mixture) {
    seasons[catalogue_->crop(part.crop).group.place()] =
        static_cast<std::int16_t>(stand.season_as_previous);
  }
  for (std::size_t row = 0; row < state.return_season.size(); ++row) {
    if ((stand.returns_as_previous >> row & 1U) == 0U) continue;
    state.return_season[row] = static_cast<std::int16_t>(stand.season_as_previous);
  }
  state.recent[1] = state.recent[0];
  state.recent[0] = {stand.spec.crop,       stand.spec.weeks,    stand.spec.ending, stand.useful,
                     stand.progress.flower, stand.tops_dry_t_ha, stand.tops_n_pct};
  if (stand.old_ley) state.ley_from = state.week + Weeks(1 + kYearWeeks);
  if (leaves_mulch(stand.spec.ending)) {
    state.mulched_until = state.week + Weeks(1 + static_cast<int>(k.mulch_weeks));
  } else if (stand.spec.ending == catalogue::Ending::Incorporated) {
    state.mulched_until = kNever;
  }
}

double BedLedger::end_of_week(BedState& state, const Stand* stand, nitrogen::Journal* journal,
                              std::vector<LoadEvent>* events) const {
  double harvested = 0.0;
  if (stand != nullptr) {
    const calendar::WeekSpan& harvest = stand->spec.harvest;
    if (harvest.contains(state.week) && stand->demand.harvest > 0.0) {
      harvested = nitrogen::harvest(state.pools, stand->demand.harvest / harvest.length().count(),
                                    stand->spec.crop, {state.week, journal});
    }
  }
  if (stand != nullptr && state.week + Weeks(1) == stand->spec.weeks.past) {
    finish_stand(state, *stand, journal, events);
  } else {
    const int age = stand != nullptr ? (state.week - stand->spec.weeks.first).count() + 1 : 1;
    if (stand != nullptr && stand->renews && age % kYearWeeks == 0) {
      shed_tops(state, *stand, journal);
    }
    apply_events(state, true, events);
  }
  for (std::size_t i = 0; i < state.loads.size(); ++i) {
    state.loads[i].cautious = std::max(state.loads[i].cautious, floors_[i]);
    state.loads[i].central = std::max(state.loads[i].central, floors_[i]);
  }
  return harvested;
}

void BedLedger::note_year_end(const BedState& state, std::vector<LoadEvent>& events) const {
  if (calendar::iso(state.week).year == calendar::iso(state.week + Weeks(1)).year) return;
  for (std::size_t i = 0; i < state.loads.size(); ++i) {
    note(&events, state, i, state.loads[i].central, LoadEvent::Cause::YearEnd);
  }
}

nitrogen::WeekFlows BedLedger::step(BedState& state, const Stand* stand, nitrogen::Journal* journal,
                                    std::vector<LoadEvent>* events) const {
  if (!events_.empty()) apply_events(state, false, events);
  if (!tests_.empty()) apply_tests(state, journal);

  const std::size_t here = place(state.week);
  const bool mulched = state.week < state.mulched_until;
  climate::Ground ground = mulched ? climate::Ground::Mulch : climate::Ground::Bare;
  nitrogen::CropWeek asks;
  if (stand != nullptr) {
    assert(stand->spec.weeks.contains(state.week) && "the stand must be in the bed this week");
    const int age = (state.week - stand->spec.weeks.first).count();
    ground = stand->ground;
    asks = stand->crop_week;
    asks.need = stand->need[static_cast<std::size_t>(age)];
    const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
    if (stand->from_seed && age < k.seedling_weeks) asks.reach *= k.seedling_reach;
    asks.buys = stand->may_buy && state.week >= garden_->seasons.first;
  }
  const int since_ley = (state.week - state.ley_from).count();
  nitrogen::Additions opened;
  const nitrogen::Additions* additions = &additions_[here];
  if (since_ley >= 0 && since_ley < kYearWeeks) {
    opened = *additions;
    opened.ley = catalogue_->coefficients.nitrogen.ley_extra * year_share_[here];
    additions = &opened;
  }
  nitrogen::WeekFlows flows = nitrogen::step(
      state.pools, rates_[here], *additions, stand != nullptr ? &asks : nullptr,
      static_cast<std::size_t>(ground), catalogue_->coefficients.nitrogen, state.week, journal);

  live_loads(state, stand);
  flows.harvested = end_of_week(state, stand, journal, events);
  const bool bare = stand == nullptr && !mulched && winter_[here] != 0;
  if (bare) {
    ++state.bare_weeks;
  } else if (stand != nullptr || winter_[here] == 0) {
    state.bare_weeks = 0;
  }
  if (events != nullptr) note_year_end(state, *events);
  ++state.week;
  return flows;
}

StandOutcome BedLedger::advance(BedState& state, const Stand& stand, nitrogen::Journal* journal,
                                std::vector<LoadEvent>* events) const {
  assert(state.week == stand.spec.weeks.first && "the stand must start where the bed is");
  StandOutcome outcome;
  while (state.week < stand.spec.weeks.past) outcome.flows += step(state, &stand, journal, events);
  outcome.harvested = outcome.flows.harvested;
  return outcome;
}

StandOutcome BedLedger::idle(BedState& state, Week until, nitrogen::Journal* journal,
                             std::vector<LoadEvent>* events) const {
  StandOutcome outcome;
  while (state.week < until) {
    outcome.flows += step(state, nullptr, journal, events);
    if (state.bare_weeks >= kBareWeekThatCounts) ++outcome.bare_weeks;
  }
  return outcome;
}

}  // namespace aftercrop::ledger
