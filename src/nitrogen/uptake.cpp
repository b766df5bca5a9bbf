#include "aftercrop/nitrogen/uptake.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace aftercrop::nitrogen {
namespace {

/// Steepness and midpoint of a crop type's uptake, in the order of catalogue::Curve.
struct Shape {
  double steepness;
  double midpoint;
};
constexpr std::array<Shape, 11> kShapes = {{{8.0, 0.70},    // heading: Bottoms et al. 2012
                                            {8.0, 0.70},    // leafy: Heinrich et al. 2013
                                            {9.0, 0.60},    // root: from memory
                                            {9.0, 0.65},    // bulb: from memory
                                            {7.0, 0.55},    // fruiting: California guidelines
                                            {11.0, 0.52},   // maize: from memory
                                            {9.0, 0.45},    // tuber: Westermann, Kleinkopf 1985
                                            {9.0, 0.58},    // grain: from memory
                                            {8.0, 0.62},    // legume: from memory
                                            {6.0, 0.60},    // cover: from memory
                                            {6.0, 0.50}}};  // perennial: from memory

double logistic(const Shape& shape, double tau) {
  return 1.0 / (1.0 + std::exp(-shape.steepness * (tau - shape.midpoint)));
}

constexpr double kLeastDemandShare = 0.4;  // our choice: a thin stand still takes this much
constexpr double kYieldStep = 0.20;        // Duengeverordnung 2017, Annex 4 Table 5
constexpr double kVegetativeUntil = 0.75;  // common practice: flower progress
constexpr double kMatureFrom = 1.45;       // common practice: 3-4 weeks after first flower

}  // namespace

double uptake_share(catalogue::Curve curve, double tau) {
  const Shape& shape = kShapes[static_cast<std::size_t>(curve)];
  const double start = logistic(shape, 0.0);
  const double end = logistic(shape, 1.0);
  return (logistic(shape, std::clamp(tau, 0.0, 1.0)) - start) / (end - start);
}

Demand demand_at_yield(const catalogue::Crop& crop, double yield_kg_m2) {
  const catalogue::NitrogenFigures& n = crop.nitrogen;
  const bool weighed = crop.yield_unit == catalogue::YieldUnit::Kilograms && n.yield_t_ha > 0.0;
  const double yield_t_ha = weighed ? yield_kg_m2 * 10.0 : n.yield_t_ha;
  const double relative = n.yield_t_ha > 0.0 ? yield_t_ha / n.yield_t_ha : 1.0;
  Demand demand;
  demand.uptake = std::max(kLeastDemandShare * n.uptake_kg_ha,
                           n.uptake_kg_ha + n.step_kg_ha * (relative - 1.0) / kYieldStep);
  demand.harvest = std::min(yield_t_ha * n.harvest_kg_per_t, demand.uptake);
  demand.residue = demand.uptake - demand.harvest;
  demand.below_ground = demand.uptake * n.below_ground_share / (1.0 - n.below_ground_share);
  return demand;
}

CoverGrowth cover_growth(const catalogue::Crop& crop, double flower) {
  const catalogue::CoverFigures& cover = *crop.cover;
  const double s = std::clamp(flower, 0.0, 1.0);
  CoverGrowth growth;
  growth.dry_t_ha = cover.biomass_t_ha.typical * s * s * (3.0 - 2.0 * s);
  const auto& n = cover.n_pct;
  if (flower <= kVegetativeUntil) {
    growth.n_pct = n[0];
  } else if (flower <= 1.0) {
    growth.n_pct = n[0] + (n[1] - n[0]) * (flower - kVegetativeUntil) / (1.0 - kVegetativeUntil);
  } else {
    growth.n_pct = n[1] + (n[2] - n[1]) * std::min(1.0, (flower - 1.0) / (kMatureFrom - 1.0));
  }
  return growth;
}

Demand demand_of_cover(const catalogue::Crop& crop, const CoverGrowth& growth) {
  Demand demand;
  demand.uptake = 10.0 * growth.dry_t_ha * growth.n_pct;
  demand.residue = demand.uptake;
  const double share = crop.nitrogen.below_ground_share;
  demand.below_ground = demand.uptake * share / (1.0 - share);
  return demand;
}

double reach(double depth_cm) {
  // Our choice: share of the 0-60 cm pool by rooted depth class.
  if (depth_cm <= 15.0) return 0.35;
  if (depth_cm <= 30.0) return 0.60;
  return 1.0;
}

}  // namespace aftercrop::nitrogen
