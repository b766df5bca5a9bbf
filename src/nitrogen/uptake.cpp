#include "aftercrop/nitrogen/uptake.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace aftercrop::nitrogen {
namespace {

double logistic(const catalogue::UptakeCurve& shape, double tau) {
  return 1.0 / (1.0 + std::exp(-shape.steepness * (tau - shape.midpoint)));
}

}  // namespace

double uptake_share(const catalogue::UptakeCurve& curve, double tau) {
  const double start = logistic(curve, 0.0);
  const double end = logistic(curve, 1.0);
  return (logistic(curve, std::clamp(tau, 0.0, 1.0)) - start) / (end - start);
}

Demand demand_at_yield(const catalogue::Crop& crop, double yield_kg_m2,
                       const catalogue::NitrogenCoefficients& k) {
  const catalogue::NitrogenFigures& n = crop.nitrogen;
  const bool weighed = crop.yield_unit == catalogue::YieldUnit::Kilograms && n.yield_t_ha > 0.0;
  const double yield_t_ha = weighed ? yield_kg_m2 * 10.0 : n.yield_t_ha;
  const double relative = n.yield_t_ha > 0.0 ? yield_t_ha / n.yield_t_ha : 1.0;
  Demand demand;
  demand.uptake = std::max(k.least_demand_share * n.uptake_kg_ha,
                           n.uptake_kg_ha + n.step_kg_ha * (relative - 1.0) / k.yield_step);
  demand.harvest = std::min(yield_t_ha * n.harvest_kg_per_t, demand.uptake);
  demand.residue = demand.uptake - demand.harvest;
  demand.below_ground = demand.uptake * n.below_ground_share / (1.0 - n.below_ground_share);
  return demand;
}

CoverGrowth cover_growth(const catalogue::Crop& crop, double flower,
                         const catalogue::NitrogenCoefficients& k) {
  const double young = k.vegetative_until;
  const double mature = k.mature_from;
  const catalogue::CoverFigures& cover = *crop.cover;
  const double s = std::clamp(flower, 0.0, 1.0);
  CoverGrowth growth;
  growth.dry_t_ha = cover.biomass_t_ha.typical * s * s * (3.0 - 2.0 * s);
  const auto& n = cover.n_pct;
  if (flower <= young) {
    growth.n_pct = n[0];
  } else if (flower <= 1.0) {
    growth.n_pct = n[0] + (n[1] - n[0]) * (flower - young) / (1.0 - young);
  } else {
    growth.n_pct = n[1] + (n[2] - n[1]) * std::min(1.0, (flower - 1.0) / (mature - 1.0));
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

double reach(double depth_cm, const catalogue::NitrogenCoefficients& k) {
  static constexpr std::array<double, 3> kUpTo = {15.0, 30.0, 60.0};
  for (std::size_t i = 0; i < kUpTo.size(); ++i) {
    if (depth_cm <= kUpTo[i]) return k.reach[i];
  }
  return k.reach.back();
}

}  // namespace aftercrop::nitrogen
