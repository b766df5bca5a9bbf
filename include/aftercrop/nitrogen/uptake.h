#pragma once

#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/crop.h"

namespace aftercrop::nitrogen {

/// Share of its nitrogen that a crop has taken up at `tau` (0..1) of its time.
/// L = (logistic(tau) - logistic(0)) / (logistic(1) - logistic(0)).
[[nodiscard]] double uptake_share(const catalogue::UptakeCurve& curve, double tau);
/// The curve of a kind of crop.
[[nodiscard]] inline const catalogue::UptakeCurve& curve_of(
    catalogue::Curve kind, const catalogue::NitrogenCoefficients& k) {
  return k.curves[static_cast<std::size_t>(kind)];
}

/// What a stand takes up and gives at a planned yield, kg N/ha.
struct Demand {
  double uptake = 0.0;  ///< above ground (and harvested root)
  double below_ground = 0.0;
  double harvest = 0.0;
  double residue = 0.0;  ///< tops left = uptake - harvest
  [[nodiscard]] double total() const { return uptake + below_ground; }
};

/// Demand of a food crop or flower at a yield (kg/m2 fresh; stems count as the standard yield).
/// Source: German Fertilising Ordinance 2017, Annex 4 Tables 4 and 5.
[[nodiscard]] Demand demand_at_yield(const catalogue::Crop& crop, double yield_kg_m2,
                                     const catalogue::NitrogenCoefficients& k);

/// A cover's top growth at its end.
struct CoverGrowth {
  double dry_t_ha = 0.0;
  double n_pct = 0.0;
};
/// `flower` = progress towards flowering (climate).
[[nodiscard]] CoverGrowth cover_growth(const catalogue::Crop& crop, double flower,
                                       const catalogue::NitrogenCoefficients& k);
[[nodiscard]] Demand demand_of_cover(const catalogue::Crop& crop, const CoverGrowth& growth);

/// Share of the mineral pool that roots reach, by rooted depth class (15, 30, 60, 90 cm).
[[nodiscard]] double reach(double depth_cm, const catalogue::NitrogenCoefficients& k);

}  // namespace aftercrop::nitrogen
