#include "aftercrop/ledger/stand.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/ledger/bed_ledger.h"

namespace aftercrop::ledger {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr int kYearWeeks = 52;

/// Season-years of a stand for the break before it and the break after it.
void fill_seasons(Stand& stand, const climate::SiteClimate& site,
                  const catalogue::DiseaseCoefficients& k) {
  const WeekSpan weeks = stand.spec.weeks;
  if (weeks.length().count() <= k.long_stand_weeks) {
    stand.season_as_next = site.season_of(weeks);
    stand.season_as_previous = stand.season_as_next;
    return;
  }
  stand.season_as_next = site.season_of({weeks.first, weeks.first + Weeks(kYearWeeks)});
  stand.season_as_previous = site.season_of({weeks.past - Weeks(1), weeks.past});
}

/// How a stand bears one disease: what its record says, or what its varieties are known for.
garden::Resistance resistance_to(const catalogue::Pathogen& pathogen, const catalogue::Crop& crop,
                                 const StandSpec& spec) {
  const auto has = [&](const std::vector<std::string>& ids) {
    return std::find(ids.begin(), ids.end(), pathogen.id) != ids.end();
  };
  if (spec.resistance == garden::Resistance::Resistant || has(crop.resistant)) {
    return garden::Resistance::Resistant;
  }
  return has(crop.tolerant) ? garden::Resistance::Tolerant : spec.resistance;
}

/// Factor of soil temperature on infection: soil that stays too cold or too hot for the pathogen.
double soil_factor(const catalogue::Pathogen& pathogen, WeekSpan weeks,
                   const climate::SiteClimate& site) {
  double coldest = 100.0;
  double warmest = -100.0;
  double warmest_at_first = -100.0;
  for (Week w = weeks.first; w < weeks.past; ++w) {
    const double soil_c = site.at(w).soil10_c;
    coldest = std::min(coldest, soil_c);
    warmest = std::max(warmest, soil_c);
    if ((w - weeks.first).count() < pathogen.cool_weeks) warmest_at_first = warmest;
  }
  const double decisive = pathogen.cool_weeks > 0 ? warmest_at_first : warmest;
  double factor = 1.0;
  if (decisive < pathogen.cool_below_c) factor *= pathogen.cool_factor;
  if (coldest > pathogen.warm_above_c) factor *= pathogen.warm_factor;
  return factor;
}

/// Of a cover that is of use by the end of the weeks, or of a part of it: it was so before frost
/// took it, if it did.
bool lived(const catalogue::Crop& cover, WeekSpan weeks, const climate::SiteClimate& site) {
  const auto killed = climate::killed_by_frost(cover, site, weeks);
  if (!killed) return true;
  weeks.past = std::min(weeks.past, *killed + Weeks(1));
  return climate::cover_progress(cover, site, weeks).stand >= 1.0;
}

/// So was, of a legume or of a mixture, what takes nitrogen from the air.
bool legumes_lived(const catalogue::Crop& crop, WeekSpan weeks, const BedLedger& ledger) {
  if (!crop.legume) return true;
  if (crop.mixture.empty()) return lived(crop, weeks, ledger.site());
  return std::all_of(crop.mixture.begin(), crop.mixture.end(), [&](const auto& part) {
    const catalogue::Crop& own = ledger.catalogue().crop(part.crop);
    return !own.legume || lived(own, weeks, ledger.site());
  });
}

}  // namespace

StandSpec spec_of(const garden::Planting& planting) {
  StandSpec spec;
  spec.crop = planting.crop;
  spec.weeks = garden::weeks_of(planting);
  spec.harvest = garden::harvest_weeks_of(planting);
  spec.ending = planting.ending;
  spec.resistance = planting.resistance;
  spec.yield_kg_m2 = planting.yield_kg_m2.value_or(-1.0);
  spec.dry_t_ha = planting.dry_t_ha.value_or(-1.0);
  spec.n_pct = planting.n_pct.value_or(-1.0);
  return spec;
}

Stand BedLedger::make_stand(const StandSpec& spec) const {
  const catalogue::Crop& crop = catalogue_->crop(spec.crop);
  Stand stand;
  stand.spec = spec;
  stand.cover = crop.is_cover();
  stand.legume = crop.legume;
  stand.ground = stand.cover ? climate::Ground::Cover : climate::Ground::Crop;
  stand.may_buy = !stand.cover && !crop.legume;
  stand.from_seed = !crop.transplanted();
  stand.old_ley = crop.legume && crop.perennial() &&
                  spec.weeks.length().count() >= catalogue_->coefficients.nitrogen.ley_weeks;
  stand.renews = crop.perennial() &&
                 spec.weeks.length().count() > catalogue_->coefficients.disease.long_stand_weeks;
  fill_seasons(stand, *site_, catalogue_->coefficients.disease);
  fill_growth(stand);
  fill_needs(stand);
  fill_loads(stand);
  fill_returns(stand);
  return stand;
}

void BedLedger::fill_growth(Stand& stand) const {
  const catalogue::Crop& crop = catalogue_->crop(stand.spec.crop);
  const catalogue::NitrogenFigures& n = crop.nitrogen;
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  if (stand.cover) {
    stand.progress = climate::cover_progress(crop, *site_, stand.spec.weeks);
    nitrogen::CoverGrowth growth = nitrogen::cover_growth(crop, stand.progress.flower, k);
    if (stand.spec.dry_t_ha >= 0.0) growth.dry_t_ha = stand.spec.dry_t_ha;
    if (stand.spec.n_pct >= 0.0) growth.n_pct = stand.spec.n_pct;
    stand.demand = nitrogen::demand_of_cover(crop, growth);
    stand.tops_dry_t_ha = growth.dry_t_ha;
    stand.tops_n_pct = growth.n_pct;
    stand.useful = stand.progress.stand >= 1.0 && legumes_lived(crop, stand.spec.weeks, *this);
    if (stand.spec.ending == catalogue::Ending::Winterkilled) {
      stand.useful = stand.useful && growth.dry_t_ha >= crop.cover->biomass_t_ha.low;
    }
  } else {
    const double yield =
        stand.spec.yield_kg_m2 >= 0.0 ? stand.spec.yield_kg_m2 : crop.yield_per_m2.typical;
    stand.demand = nitrogen::demand_at_yield(crop, yield, k);
    stand.tops_n_pct = n.residue_n_pct;
    stand.tops_dry_t_ha =
        n.residue_n_pct > 0.0 ? stand.demand.residue / (10.0 * n.residue_n_pct) : 0.0;
  }
  stand.roots_dry_t_ha =
      n.root_n_pct > 0.0 ? stand.demand.below_ground / (10.0 * n.root_n_pct) : 0.0;
  stand.crop_week.reach = nitrogen::reach(n.depth_cm, k);
  stand.crop_week.residual = n.residual_kg_ha;
  stand.crop_week.fixation_share = n.fixation_share;
  stand.crop_week.fixation_ceiling = n.fixation_ceiling;
  stand.crop_week.crop = stand.spec.crop;
}

void BedLedger::fill_needs(Stand& stand) const {
  const catalogue::Crop& crop = catalogue_->crop(stand.spec.crop);
  const WeekSpan weeks = stand.spec.weeks;
  const int count = weeks.length().count();
  stand.need.assign(static_cast<std::size_t>(count), 0.0);
  const double total = stand.demand.total();
  const catalogue::UptakeCurve& curve =
      nitrogen::curve_of(crop.nitrogen.curve, catalogue_->coefficients.nitrogen);
  // The curve of a perennial restarts each year of a long stand; its roots are made in the first.
  for (int year_start = 0; year_start < count; year_start += kYearWeeks) {
    const Week first = weeks.first + Weeks(year_start);
    const bool restarts = stand.renews;
    const double asked = year_start == 0 ? total : stand.demand.uptake;
    const Week past = restarts ? first + Weeks(kYearWeeks) : weeks.past;
    const double season = site_->degree_days(first, past, crop.base_c, crop.cap_c);
    const int here = std::min(restarts ? kYearWeeks : count, count - year_start);
    double before = 0.0;
    double done = 0.0;
    for (int i = 0; i < here; ++i) {
      const Week week = first + Weeks(i);
      done += site_->degree_days(week, week + Weeks(1), crop.base_c, crop.cap_c);
      const double by_calendar = static_cast<double>(i + 1) / (past - first).count();
      const double tau = season > 1.0 ? done / season : by_calendar;
      const double share = nitrogen::uptake_share(curve, tau);
      stand.need[static_cast<std::size_t>(year_start + i)] = asked * (share - before);
      before = share;
    }
    if (!restarts) break;
  }
}

double BedLedger::infection(const catalogue::Pathogen& pathogen, const catalogue::Host& host,
                            const Stand& stand) const {
  double phi = disease::ph_factor(pathogen, bed().ph);
  if (bed().poorly_drained) phi *= pathogen.wet_factor;
  phi *= soil_factor(pathogen, stand.spec.weeks, *site_);
  const catalogue::DiseaseCoefficients& k = catalogue_->coefficients.disease;
  const garden::Resistance resistance =
      resistance_to(pathogen, catalogue_->crop(stand.spec.crop), stand.spec);
  double tau = host.tolerance;
  if (resistance == garden::Resistance::Resistant) tau *= k.resistant_tolerance;
  if (resistance == garden::Resistance::Tolerant) tau *= k.tolerant_tolerance;
  return phi / tau;
}

void BedLedger::fill_returns(Stand& stand) const {
  const auto lists = [&](const std::vector<catalogue::CropId>& crops) {
    return std::find(crops.begin(), crops.end(), stand.spec.crop) != crops.end();
  };
  const std::size_t rows = std::min(catalogue_->host_returns.size(), kMostReturns);
  for (std::size_t row = 0; row < rows; ++row) {
    const catalogue::HostReturn& pair = catalogue_->host_returns[row];
    if (lists(pair.crops)) stand.returns_as_next |= 1U << row;
    if (lists(pair.after)) stand.returns_as_previous |= 1U << row;
  }
}

void BedLedger::fill_loads(Stand& stand) const {
  const catalogue::Crop& crop = catalogue_->crop(stand.spec.crop);
  const catalogue::DiseaseCoefficients& k = catalogue_->coefficients.disease;
  const int weeks = stand.spec.weeks.length().count();
  stand.fumigant = stand.cover && crop.cover->fumigant != catalogue::Fumigant::None;
  disease::Fumigation how;
  how.flower = stand.progress.flower;
  how.weeks_grown = weeks;
  how.fresh_kg_m2 = stand.tops_dry_t_ha * 0.1 / k.fresh_dry_share;
  how.soil_c = site_->at(stand.spec.weeks.past - Weeks(1)).soil10_c;
  how.chopped_in = stand.spec.ending == catalogue::Ending::Incorporated;
  if (stand.fumigant) stand.fumigation = disease::fumigation_quality(crop, how, k);

  for (const catalogue::PathogenId id : tracked_) {
    const catalogue::Pathogen& pathogen = catalogue_->pathogen(id);
    StandLoad load;
    load.week = disease::decay(1.0, pathogen.half_life_years.typical);
    if (pathogen.host(stand.spec.crop) != nullptr) fill_host(pathogen, stand, load);
    for (const catalogue::Biofumigation& row : pathogen.biofumigation) {
      if (std::find(row.plants.begin(), row.plants.end(), stand.spec.crop) == row.plants.end()) {
        continue;
      }
      double quality = stand.fumigation.q;
      if (row.crop_residue) quality = how.chopped_in ? k.planned_quality.value : 0.0;
      load.kept_cautious = 1.0 - row.efficacy.low * quality;
      load.kept_central = 1.0 - row.efficacy.typical * quality;
      load.effective = row.efficacy.typical > 0.0 && quality >= k.effective_quality;
      break;
    }
    stand.loads.push_back(load);
  }
}

void BedLedger::fill_host(const catalogue::Pathogen& pathogen, const Stand& stand,
                          StandLoad& load) const {
  const catalogue::Crop& crop = catalogue_->crop(stand.spec.crop);
  const catalogue::DiseaseCoefficients& k = catalogue_->coefficients.disease;
  catalogue::Host host = *pathogen.host(stand.spec.crop);
  load.host = true;
  load.prone = host.role == catalogue::HostRole::Prone;
  load.infection = infection(pathogen, host, stand);
  if (resistance_to(pathogen, crop, stand.spec) == garden::Resistance::Resistant) {
    host.gain *= k.resistant_gain;
  }
  const double weeks = stand.spec.weeks.length().count();
  const double season =
      crop.perennial() ? kYearWeeks : std::max<double>(weeks, k.full_season_weeks);
  const double doublings = disease::season_doublings(pathogen, host, stand.spec.ending);
  load.week = disease::host_weeks(1.0, season, doublings, pathogen.ceiling);
  for (const catalogue::Aggravation& worse : pathogen.worse_with) {
    const auto at = std::find(tracked_.begin(), tracked_.end(), worse.disease);
    const auto& crops = worse.crops;
    if (at == tracked_.end() ||
        std::find(crops.begin(), crops.end(), stand.spec.crop) == crops.end()) {
      continue;
    }
    load.worse_with = static_cast<int>(at - tracked_.begin());
    load.worse_from = worse.from_load;
    load.worse_factor = worse.factor;
  }
}

}  // namespace aftercrop::ledger
