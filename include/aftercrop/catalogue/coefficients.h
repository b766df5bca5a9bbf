#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "aftercrop/catalogue/causes.h"
#include "aftercrop/catalogue/coefficient.h"
#include "aftercrop/catalogue/rule_coefficients.h"
#include "aftercrop/catalogue/site_coefficients.h"

namespace aftercrop::catalogue {

/// How a kind of crop takes up its nitrogen: a logistic curve over its thermal time (0 to 1).
struct UptakeCurve {
  double steepness = 8.0;
  double midpoint = 0.6;
  std::string source;
};
inline constexpr std::size_t kCurves = 11;  ///< in the order of Curve

/// The nitrogen ledger's coefficients (crops/ledger.yaml). Rates are per normal week: one week at
/// 20 C soil temperature.
struct NitrogenCoefficients {
  Coefficient supply_per_om;      ///< A, kg N/ha a year per % organic matter, whole profile
  Coefficient slice_cm;           ///< furrow slice that rules of thumb and organic matter are of
  Coefficient slice_share;        ///< share of the profile's supply that the slice gives
  Coefficient reference_weeks;    ///< normal weeks of the year that A stands for
  Coefficient om_cap;             ///< % organic matter above which supply does not grow
  Coefficient annual_factor_low;  ///< clamp of (normal weeks / reference weeks)
  Coefficient annual_factor_high;
  Coefficient q10;
  Coefficient first_order_rate;  ///< per week at 35 C, of the mineralisable pool that a test finds
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
  Coefficient winterkill_loss;    ///< share of tops N lost over winter
  Coefficient winterkill_to_air;  ///< of that loss; the rest is washed in
  Coefficient least_n_pct;        ///< a cover's tops do not fall below this
  Coefficient opening_mineral_spring;
  Coefficient opening_mineral_autumn;
  Coefficient opening_slow;
  Coefficient ley_extra;             ///< kg N/ha in the second year after an old perennial legume
  Coefficient ley_weeks;             ///< a perennial legume is old from so many weeks on
  Coefficient recovery;              ///< share of what roots draw from the soil that gets into them
  std::array<Coefficient, 4> reach;  ///< share of `mineral` that roots of 15, 30, 60, 90 cm reach
  Coefficient seedling_reach;        ///< times this in the first weeks from seed
  Coefficient seedling_weeks;
  Coefficient least_demand_share;    ///< a thin stand still takes this share of a standard one's
  Coefficient yield_step;            ///< share of yield that moves demand by a row's step
  Coefficient vegetative_until;      ///< progress to flower up to which tops hold their first %
  Coefficient mature_from;           ///< and from which they hold their last
  Coefficient quick_share;           ///< of a meal's available part, within two weeks
  Coefficient mulch_weeks;           ///< how long dead cover protects the ground
  Coefficient surplus_kept;          ///< kg N/ha before a winter that are no surplus
  Coefficient wet_soil_gas;          ///< wetness of a bed marked poorly drained
  Coefficient winter_air_c;          ///< a week below it is one of the freezing season
  Coefficient winter_drainage_mm;    ///< a week above it is one of the wet season
  Coefficient test_tolerance;        ///< share by which a soil test may differ from the ledger
  Coefficient manure_days_touching;  ///< raw manure to harvest where food touches soil
  Coefficient manure_days_clear;
  std::array<UptakeCurve, kCurves> curves;
  std::array<CauseText, kCauses> causes;
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
  Coefficient gain_partial;       ///< gain of a partial host
  Coefficient gain_carrier;
  Coefficient resistant_tolerance;  ///< a resistant variety bears so many times the load
  Coefficient tolerant_tolerance;
  Coefficient resistant_gain;    ///< and feeds it by this share
  Coefficient long_stand_weeks;  ///< a longer stand counts for two season-years
  Coefficient fresh_dry_share;   ///< dry matter of a green biofumigant
  Coefficient biomass_aim;       ///< kg/m2 fresh of a full dose
  Coefficient biomass_least;     ///< kg/m2 fresh below which there is no effect
  Coefficient bud_from;          ///< progress to flower at which brassicas are full strength
  Coefficient full_flower_from;  ///< from which they weaken
  Coefficient seed_from;         ///< from which they are woody
  Coefficient young_weeks;       ///< weeks from which a vegetative stand counts as young
  Coefficient young_factor;
  Coefficient full_flower_factor;
  Coefficient woody_factor;        ///< seed set, woody, or hardly up
  Coefficient dhurrin_from_weeks;  ///< sudangrass works between these weeks of age
  Coefficient dhurrin_until_weeks;
  Coefficient surface_factor;  ///< left on top instead of dug in
  Coefficient warm_soil_c;     ///< full strength from here
  Coefficient cool_soil_c;
  Coefficient cool_soil_factor;  ///< between the two
  Coefficient cold_soil_factor;
};

struct Coefficients {
  NitrogenCoefficients nitrogen;
  DiseaseCoefficients disease;
  RuleCoefficients rules;
  SiteCoefficients site;
};

}  // namespace aftercrop::catalogue
