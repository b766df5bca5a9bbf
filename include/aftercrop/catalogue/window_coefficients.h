#pragma once

#include "aftercrop/catalogue/coefficient.h"

// Limits within which a crop is sown, grows and is picked (crops/site.yaml). Units stand there.
namespace aftercrop::catalogue {

/// When a crop may be sown or set out.
struct StartCoefficients {
  Coefficient over_soil_minimum_c;  ///< soil for seed in spring
  Coefficient
      under_warmest_soil_c;     ///< but never more than this below the warmest soil of the place
  Coefficient plants_bear_c;    ///< colder soil than seed asks for, set out from pots
  Coefficient air_over_base_c;  ///< mean air for plants
  Coefficient emergence_days;   ///< of crops without a row of emergence
  Coefficient emergence_days_most;  ///< that tender seed counts as safe in the ground
  Coefficient
      stops_below_c;  ///< a growth minimum below this is where growth stops: no slack under it
  Coefficient heat_slack_c;  ///< mean temperature beyond the published range that is let pass
  Coefficient cold_slack_c;
  Coefficient cloves_soil_c;
  Coefficient chill_c;  ///< weekly mean that chills cloves
  Coefficient chill_weeks;
  Coefficient cloves_before_frozen_weeks;  ///< before the soil freezes
};

/// From the start to the first harvest.
struct MaturityCoefficients {
  Coefficient plant_ahead_days;  ///< a plant is ahead of a seed
  Coefficient autumn_from_h;     ///< harvests of falling light are put off from here
  Coefficient autumn_to_h;       ///< to the full here
  Coefficient autumn_days;
  Coefficient rising_share;      ///< least time of a harvest in rising light
  Coefficient slow_summer;       ///< a slower middle cultivar asks for an early one
  Coefficient over_winter_days;  ///< catalogue days from which a crop is counted over winter
  Coefficient spring_h;          ///< overwintered brassicas head, garlic makes its bulb, above
  Coefficient garlic_degree_days;
  Coefficient swelling_weeks;  ///< of a bulb, before harvest
  Coefficient regrowth_c;      ///< mean air in which a perennial gives
  Coefficient regrowth_least_c;
};

/// What a stand must be to pass the cold, and when it must end.
struct WinterCoefficients {
  Coefficient death_risk;    ///< of a killing night that is taken
  Coefficient harvest_risk;  ///< of a killing night before the shortest harvest is over
  Coefficient rest_c;        ///< coldest week below which growth rests
  Coefficient no_rest_c;     ///< coldest week above which nothing rests
  Coefficient established;   ///< made before the coldest week
  Coefficient onion_degree_days;
  Coefficient early_days;  ///< that a winter crop may differ from its catalogue days
  Coefficient late_days;
  Coefficient tender_weeks;         ///< before frost, for tender crops picked in a few weeks
  Coefficient short_harvest_weeks;  ///< a shorter harvest is one of a few weeks
  Coefficient rooting_weeks;        ///< of growth that a perennial needs before the cold
};

/// How covers grow, flower and die.
struct CoverGrowthCoefficients {
  Coefficient full_growth_c;  ///< at which a week counts whole
  Coefficient flower_factor;  ///< days to flower
  Coefficient seed_progress;  ///< seed or straw begins
  Coefficient dies_when_cut;
  Coefficient surely_dead;    ///< of a killing night, for a cover that counts as winterkilled
  Coefficient comes_up_days;  ///< a tender cover comes up in
  Coefficient tender_risk;    ///< of frost on it that is taken
};

/// Day length, bolting and heat of the few crops with a rule of their own.
struct CropLimitCoefficients {
  Coefficient long_day_latitude;   ///< long-day onions from here polewards
  Coefficient short_day_latitude;  ///< short-day onions below
  Coefficient long_day_h;          ///< bulbing of long-day onions
  Coefficient middle_day_h;
  Coefficient equator_day_h;          ///< of short-day onions
  Coefficient bulbing_margin_h;       ///< by which the longest day must pass it
  Coefficient leaf_weeks_after;       ///< that leaves may still be made in long days
  Coefficient spinach_h;              ///< spinach bolts above
  Coefficient spinach_weeks_rising;   ///< of longer days that are let pass in spring
  Coefficient spinach_weeks_falling;  ///< and after midsummer
  Coefficient lettuce_heat_c;         ///< heads are refused in a warmer week of harvest
};

}  // namespace aftercrop::catalogue
