#pragma once

#include "aftercrop/catalogue/coefficient.h"

// Thresholds of rules (crops/ledger.yaml). Units stand there.
namespace aftercrop::catalogue {

/// Thresholds of rules.
struct RuleCoefficients {
  Coefficient legume_within_weeks;  ///< before a heavy feeder in which a legume counts
  Coefficient short_band_share;     ///< shortfall within doubt
  Coefficient short_band;           ///< and at least this
  Coefficient left_band_share;      ///< nitrogen left before winter within doubt
  Coefficient left_band;            ///< and at least this
  Coefficient carbon_pct;           ///< of residues
  Coefficient straw_cn;             ///< a residue waits from here on
  Coefficient strawy_cn;            ///< longer from here
  Coefficient woody_cn;             ///< longest above
  Coefficient straw_weeks;
  Coefficient strawy_weeks;
  Coefficient woody_weeks;
  Coefficient safe_seed_mg;   ///< seed that residue does not hinder
  Coefficient usual_residue;  ///< that the waits are told for
  Coefficient late_flower;    ///< residue counts as late from here
  Coefficient tarp_weeks;
  Coefficient small_seed_mg;  ///< seed that living rye beside it checks
  Coefficient want_met;       ///< nearer than this counts as met
};

}  // namespace aftercrop::catalogue
