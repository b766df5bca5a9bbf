#pragma once

#include <array>
#include <map>
#include <memory>
#include <vector>

#include "aftercrop/ledger/walk.h"
#include "sequencer/candidates.h"
#include "support/tried_path.h"

// Every future of one bed, by walking week for week and trying each stand that could begin. Shares
// no search with the sequencer: only the ledger, the rules and the list of stands worth thinking
// of.
namespace aftercrop::support {

class EveryPath {
 public:
  using Cells = std::vector<std::pair<catalogue::CropId, calendar::Week>>;

  EveryPath(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
            const ledger::SiteClimates& climates, std::pair<garden::BedId, const Cells*> bed)
      : garden_(&garden), cells_(bed.second), area_m2_(garden.bed(bed.first).area.value()) {
    std::vector<catalogue::PathogenId> seen;
    for (const garden::Sighting& sighting : garden.sightings) {
      if (sighting.bed == bed.first) seen.push_back(sighting.disease);
    }
    const bool sick = !seen.empty();
    const climate::SiteClimate& site = climates.of(garden.bed(bed.first).shelter);
    ledger_ =
        std::make_unique<ledger::BedLedger>(catalogue, garden, bed.first, site, std::move(seen));
    clubroot_seen_ = rules::covers_bind(garden, catalogue);
    ledger::BedState state = ledger_->opening();
    ledger::WalkOptions options;
    options.until = garden.seasons.first;
    ledger::walk(*ledger_, state, ledger::plantings_of(bed.first, garden.history, {}), options);
    find_stands(catalogue, site, sick);
    TriedPath none;
    none.picked.assign(cells_->size(), 0.0);
    extend(state, none);
  }

  /// Cheapest path for each harvest, one list a lift.
  std::array<std::map<std::vector<double>, TriedPath>, kLifts> cheapest;
  long tried = 0;

 private:
  void find_stands(const catalogue::Catalogue& catalogue, const climate::SiteClimate& site,
                   bool sick) {
    const sequencer::Objective objective(*garden_, catalogue);
    for (const auto& spec :
         sequencer::candidate_stands(*garden_, catalogue, site, objective, sick)) {
      const catalogue::Crop& crop = catalogue.crop(spec.crop);
      if (!crop.is_cover() && area_m2_ < 0.95 * crop.smallest_stand_m2) continue;
      stands_[spec.weeks.first].push_back(ledger_->make_stand(spec));
    }
  }

  void extend(ledger::BedState state, TriedPath path) {
    while (state.week < garden_->seasons.past) {
      const auto here = stands_.find(state.week);
      if (here != stands_.end()) {
        for (const ledger::Stand& stand : here->second) take(state, path, stand);
      }
      charge(ledger_->idle(state, state.week + calendar::Weeks(1)), path.costs);
    }
    ++tried;
    for (std::size_t i = 0; i < kLifts; ++i) {
      const auto lifted = static_cast<Lifted>(i);
      if (!path.possible(lifted)) continue;
      const auto [found, fresh] = cheapest[i].emplace(path.picked, path);
      if (!fresh && path.cost(lifted) < found->second.cost(lifted)) found->second = path;
    }
  }

  void take(ledger::BedState state, TriedPath path, const ledger::Stand& stand) {
    const double worth = stand_worth(*garden_, stand.spec.crop, area_m2_);
    const rules::Occasion occasion{*ledger_, state, stand, clubroot_seen_};
    rules::Breaches breaches;
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    for (const rules::Breach& breach : breaches) {
      const garden::Setting setting = rules::setting_of(breach, garden_->policy);
      const bool refuses = setting == garden::Setting::Require;
      const double price =
          setting == garden::Setting::Warn ? garden_->costs.warn_share * worth : 0.0;
      if (about_breaks(breach.rule)) {
        path.breaks_refuse = path.breaks_refuse || refuses;
        path.costs.break_warnings += price;
      } else if (about_loads(breach.rule)) {
        path.loads_refuse = path.loads_refuse || refuses;
        path.costs.load_warnings += price;
      } else if (refuses) {
        return;
      } else {
        path.costs.other_warnings += price;
      }
    }
    if (path.breaks_refuse && path.loads_refuse) return;
    path.costs.disease += disease_cost(*garden_, state, stand, worth);
    charge(ledger_->advance(state, stand), path.costs);
    Harvests picked;
    add_harvest(picked, stand.spec, area_m2_);
    for (std::size_t i = 0; i < cells_->size(); ++i) {
      const auto found = picked.find((*cells_)[i]);
      if (found != picked.end()) path.picked[i] += found->second;
    }
    extend(state, path);
  }

  void charge(const ledger::StandOutcome& outcome, PlainCosts& costs) const {
    const double hectares = area_m2_ / 10000.0;
    costs.nitrogen += garden_->costs.nitrogen_per_kg * outcome.flows.bought * hectares;
    costs.leached += garden_->costs.leached_per_kg * outcome.flows.leached * hectares;
    if (garden_->policy.of(garden::RuleId::BareWinter) < garden::Setting::Warn) return;
    costs.bare += garden_->costs.bare_week_per_m2 * outcome.bare_weeks * area_m2_;
  }

  const garden::Garden* garden_;
  const Cells* cells_;
  double area_m2_;
  bool clubroot_seen_ = false;
  std::unique_ptr<ledger::BedLedger> ledger_;
  std::map<calendar::Week, std::vector<ledger::Stand>> stands_;
};

}  // namespace aftercrop::support
