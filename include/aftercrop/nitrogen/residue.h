#pragma once

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/ending.h"
#include "aftercrop/nitrogen/journal.h"
#include "aftercrop/nitrogen/step.h"

namespace aftercrop::nitrogen {

/// Part of a plant that stays in or on the bed.
struct Residue {
  double n_kg_ha = 0.0;
  double dry_t_ha = 0.0;
  catalogue::CropId crop;
};

/// What a stand holds when it ends, kg N/ha and t dry matter/ha.
struct StandingCrop {
  double roots_kg_ha = 0.0;
  double roots_dry_t_ha = 0.0;
  double tops_kg_ha = 0.0;
  double tops_dry_t_ha = 0.0;
  catalogue::CropId crop;
};

struct Moment {
  calendar::Week week;
  Journal* journal = nullptr;
};

/// Net nitrogen (kg/ha, negative = tie-up) that a residue gives once all is released.
/// 8.75 (n - 1.5) kg per t dry matter. Source: Sullivan and Andrews 2012, PNW 636.
[[nodiscard]] double final_net(const Residue& residue, const catalogue::NitrogenCoefficients& k);

void bury(Pools& pools, const Residue& residue, const catalogue::NitrogenCoefficients& k,
          const Moment& moment, Cause cause = Cause::ResidueBuried);
void lay_as_mulch(Pools& pools, const Residue& residue, const catalogue::NitrogenCoefficients& k,
                  const Moment& moment);

/// Nitrogen that leaves the crop pool with a picking, kg N/ha: what is asked, or all there is.
double harvest(Pools& pools, double kg_per_ha, catalogue::CropId crop, const Moment& moment);

/// Ends a stand: empties the crop pool into residues, heap and air as the ending says.
void end_stand(Pools& pools, const StandingCrop& standing, catalogue::Ending ending,
               const catalogue::NitrogenCoefficients& k, const Moment& moment);

}  // namespace aftercrop::nitrogen
