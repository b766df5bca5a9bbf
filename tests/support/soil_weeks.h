#pragma once

#include "aftercrop/load/load.h"
#include "aftercrop/nitrogen/residue.h"
#include "aftercrop/nitrogen/step.h"

// Weeks of a soil that is kept at one temperature: what a laboratory or a trial report describes.
namespace aftercrop::support {

inline const catalogue::Catalogue& rows() { return load::embedded_catalogue(); }

inline const catalogue::NitrogenCoefficients& coefficients() {
  return rows().coefficients.nitrogen;
}

/// The ledger's own coefficients without what else moves mineral nitrogen: no rain-borne nitrogen,
/// no gas.
inline catalogue::NitrogenCoefficients closed_soil() {
  catalogue::NitrogenCoefficients k = coefficients();
  k.deposition.value = 0.0;
  k.gas_rate.value = 0.0;
  return k;
}

/// Lives through weeks at one soil temperature, without soil organic matter and without drainage.
inline void keep_at(nitrogen::Pools& pools, double soil_c, int weeks,
                    const catalogue::NitrogenCoefficients& k) {
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = 0.0;
  soil.moisture = 1.0;
  const nitrogen::WeekRates rates = nitrogen::week_rates(soil_c, {0, 0, 0, 0}, soil, k);
  for (int i = 0; i < weeks; ++i) {
    nitrogen::step(pools, rates, {}, nullptr, 0, k, calendar::Week(2974 + i), nullptr);
  }
}

inline constexpr double kPlenty = 500.0;  // kg N/ha: tie-up is never starved

/// One tonne of dry matter of `n_pct`, dug in.
inline nitrogen::Pools with_buried_tonne(double n_pct, const catalogue::NitrogenCoefficients& k) {
  nitrogen::Pools pools;
  pools.mineral = kPlenty;
  nitrogen::bury(pools, {10.0 * n_pct, 1.0, {}}, k, {});
  return pools;
}

}  // namespace aftercrop::support
