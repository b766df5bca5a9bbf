#include "aftercrop/disease/load.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::disease {
namespace {

constexpr double kYearsPerWeek = 7.0 / 365.25;

using catalogue::DiseaseCoefficients;

double stage_factor(const catalogue::Crop& crop, const Fumigation& how,
                    const DiseaseCoefficients& k) {
  if (crop.cover && crop.cover->fumigant == catalogue::Fumigant::Dhurrin) {
    const bool young =
        how.weeks_grown >= k.dhurrin_from_weeks && how.weeks_grown <= k.dhurrin_until_weeks;
    return young ? 1.0 : k.woody_factor.value;
  }
  if (how.flower < k.bud_from) {
    return how.weeks_grown >= k.young_weeks ? k.young_factor : k.woody_factor;
  }
  if (how.flower <= k.full_flower_from) return 1.0;
  return how.flower <= k.seed_from ? k.full_flower_factor : k.woody_factor;
}

double biomass_factor(double fresh_kg_m2, const DiseaseCoefficients& k) {
  if (fresh_kg_m2 < k.biomass_least) return 0.0;
  return std::min(1.0, fresh_kg_m2 / k.biomass_aim);
}

double warmth_factor(double soil_c, const DiseaseCoefficients& k) {
  if (soil_c >= k.warm_soil_c) return 1.0;
  return soil_c >= k.cool_soil_c ? k.cool_soil_factor : k.cold_soil_factor;
}

}  // namespace

LoadMap decay(double weeks, double half_life_years) {
  return {std::exp2(-weeks * kYearsPerWeek / half_life_years), 0.0};
}

LoadMap host_weeks(double weeks, double season_weeks, double doublings, double ceiling) {
  const double growth = std::exp2(doublings * weeks / season_weeks);
  return {growth, (growth - 1.0) / ceiling};
}

double years_to(double load, double limit, double half_life_years) {
  if (load <= limit) return 0.0;
  return half_life_years * std::log2(load / limit);
}

double season_doublings(const catalogue::Pathogen& pathogen, const catalogue::Host& host,
                        catalogue::Ending ending) {
  double doublings = host.gain * pathogen.gain;
  if (ending == catalogue::Ending::HarvestedPulled) doublings *= 1.0 - pathogen.residue_carried_off;
  return doublings;
}

double ph_factor(const catalogue::Pathogen& pathogen, double ph) {
  const auto& points = pathogen.ph_factor;
  if (points.empty()) return 1.0;
  if (ph <= points.front().at) return points.front().factor;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (ph > points[i].at) continue;
    const auto& from = points[i - 1];
    const double share = (ph - from.at) / (points[i].at - from.at);
    return from.factor + share * (points[i].factor - from.factor);
  }
  return points.back().factor;
}

Quality fumigation_quality(const catalogue::Crop& crop, const Fumigation& how,
                           const catalogue::DiseaseCoefficients& k) {
  const double species = crop.cover ? crop.cover->fumigant_species_factor : 1.0;
  const struct {
    Unready what;
    double factor;
  } factors[] = {{Unready::Species, species},
                 {Unready::Stage, stage_factor(crop, how, k)},
                 {Unready::Biomass, biomass_factor(how.fresh_kg_m2, k)},
                 {Unready::NotIncorporated, how.chopped_in ? 1.0 : k.surface_factor.value},
                 {Unready::ColdSoil, warmth_factor(how.soil_c, k)},
                 {Unready::Execution, k.planned_quality}};
  Quality quality{1.0, Unready::None, 1.0};
  for (const auto& [what, factor] : factors) {
    quality.q *= factor;
    if (factor <= 0.5 && quality.first == Unready::None) {
      quality.first = what;
      quality.factor = factor;
    }
  }
  return quality;
}

}  // namespace aftercrop::disease
