#pragma once

#include <string>
#include <vector>

namespace aftercrop::catalogue {

/// One coefficient of a ledger with its published span.
struct Coefficient {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string unit;
  std::string source;
  operator double() const {
    return value;
  }  // NOLINT(google-explicit-constructor): read as a number
};

/// The nitrogen ledger's coefficients (crops/ledger.yaml). Rates are per normal week: one week at
/// 20 C soil temperature.
struct NitrogenCoefficients {
  Coefficient supply_per_om;      ///< A, kg N/ha a year per % organic matter
  Coefficient reference_weeks;    ///< normal weeks of the year that A stands for
  Coefficient om_cap;             ///< % organic matter above which supply does not grow
  Coefficient annual_factor_low;  ///< clamp of (normal weeks / reference weeks)
  Coefficient annual_factor_high;
  Coefficient q10;
  Coefficient moisture_watered;  ///< g where the bed is watered or the site humid
  Coefficient moisture_rainfed;
  Coefficient gross_share;    ///< g0: share of residue N that mineralises
  Coefficient tie_up_per_dm;  ///< d0: kg N/ha of microbial demand per t dry matter
  Coefficient rate_fast;      ///< kG
  Coefficient rate_tie_up;    ///< kD
  Coefficient rate_mulch;     ///< kGs
  Coefficient rate_slow;      ///< kS
  Coefficient slow_share;     ///< h
  Coefficient surface_tie_up_share;
  Coefficient ammonia_share;
  Coefficient nitrate_brake;       ///< plough-layer nitrate (kg N/ha) at which fixation stops
  Coefficient plough_layer_share;  ///< share of the pool that lies in the plough layer
  Coefficient profile_m;           ///< depth of the mineral pool
  Coefficient gas_rate;
  Coefficient deposition;  ///< kg N/ha a week
  Coefficient pulled_root_share;
  Coefficient winterkill_loss;  ///< share of tops N lost over winter
  Coefficient least_n_pct;      ///< a cover's tops do not fall below this
  Coefficient opening_mineral_spring;
  Coefficient opening_mineral_autumn;
  Coefficient opening_slow;
};

/// The disease ledger's coefficients.
struct DiseaseCoefficients {
  Coefficient background_load;
  Coefficient sighting_trace;
  Coefficient sighting_some;
  Coefficient sighting_severe;
  Coefficient other_section_share;  ///< a sighting on one section counts so much for the others
  Coefficient refuse_at;
  Coefficient full_season_weeks;  ///< a host season is at least so long
  Coefficient planned_quality;    ///< q of chopping, delay, moisture and sealing in a plan
  Coefficient effective_quality;  ///< least q of an effective biofumigant
  Coefficient biofumigant_weeks;  ///< how long before the prone crop it counts
};

struct Coefficients {
  NitrogenCoefficients nitrogen;
  DiseaseCoefficients disease;
};

}  // namespace aftercrop::catalogue
