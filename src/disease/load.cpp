#include "aftercrop/disease/load.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::disease {
namespace {

constexpr double kYearsPerWeek = 7.0 / 365.25;

double stage_factor(const catalogue::Crop& crop, const Fumigation& how) {
  if (crop.cover && crop.cover->fumigant == catalogue::Fumigant::Dhurrin) {
    return how.weeks_grown >= 4.0 && how.weeks_grown <= 8.0 ? 1.0
                                                            : 0.2;  // Cornell cover crops page
  }
  if (how.flower < 0.85) return how.weeks_grown >= 6.0 ? 0.6 : 0.2;
  if (how.flower <= 1.2) return 1.0;  // bud to early flower
  return how.flower <= 1.45 ? 0.7 : 0.2;
}

double biomass_factor(double fresh_kg_m2) {
  constexpr double kAim = 5.0;  // 50 t/ha fresh is the usual aim (from memory)
  if (fresh_kg_m2 < 1.0) return 0.0;
  return std::min(1.0, fresh_kg_m2 / kAim);
}

double warmth_factor(double soil_c) {
  if (soil_c >= 10.0) return 1.0;
  return soil_c >= 6.0 ? 0.5 : 0.2;
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
                 {Unready::Stage, stage_factor(crop, how)},
                 {Unready::Biomass, biomass_factor(how.fresh_kg_m2)},
                 {Unready::NotIncorporated, how.chopped_in ? 1.0 : 0.1},
                 {Unready::ColdSoil, warmth_factor(how.soil_c)},
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
