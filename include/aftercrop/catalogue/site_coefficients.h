#pragma once

#include <array>
#include <string>
#include <vector>

#include "aftercrop/catalogue/coefficient.h"
#include "aftercrop/catalogue/window_coefficients.h"

// What the climate of a site does to soil, water and crops (crops/site.yaml). Units stand there.
namespace aftercrop::catalogue {

/// What fleece and an unheated tunnel do to air and rain.
struct ShelterCoefficients {
  Coefficient fleece_noon_c;         ///< added to the maximum
  Coefficient fleece_night_c;        ///< added to the minimum
  Coefficient tunnel_noon_c;         ///< closed
  Coefficient tunnel_vented_noon_c;  ///< vented
  Coefficient tunnel_night_c;
  Coefficient vent_from_c;  ///< fleece comes off and a tunnel is opened from here
  Coefficient vented_at_c;  ///< and wholly from here
  Coefficient tunnel_evaporation;
};

/// Soil temperature from the weekly air.
struct GroundCoefficients {
  Coefficient smoothing_shallow;  ///< share of the way to the week's air
  Coefficient smoothing_ten_cm;
  Coefficient frozen_share;
};

/// The soil profile as a bucket.
struct WaterCoefficients {
  Coefficient snow_below_c;  ///< all falls as snow
  Coefficient rain_above_c;  ///< all falls as rain
  Coefficient melt_mm;
  Coefficient depletion;       ///< that can be used before water limits
  Coefficient texture_om_pct;  ///< organic matter that the texture table stands for
  Coefficient water_per_om;
  Coefficient bare_wet;  ///< bare soil in weeks of more rain than evaporation
  Coefficient bare_dry;
  Coefficient under_mulch;
  Coefficient under_plants;
};

/// Frost dates from curves of the mean minimum.
struct FrostCoefficients {
  Coefficient curve_at_frost_c;  ///< mean minimum on the median frost date
  Coefficient coldest_night_sd;  ///< of the year under the mean minimum of its month
  Coefficient winter_spread_c;   ///< of the yearly lowest minimum between years
  Coefficient greatest_shift_c;  ///< of borrowed normals towards the grower's frost dates
  Coefficient
      date_scale_days;  ///< that weigh as much as latitude_scale in the search for the nearest site
  Coefficient latitude_scale;
  Coefficient usual_latitude;
};

/// Seasons and short days.
struct YearCoefficients {
  Coefficient short_day_h;      ///< growth all but stops below
  Coefficient short_day_share;  ///< of a cool crop's days below
  Coefficient autumn_mean_c;    ///< mean air on the median first frost
  Coefficient even_year_c;      ///< a smaller range of monthly means is no season
  Coefficient warm_winter_c;    ///< nor is a frost-free coldest month above
};

/// Spread of frost dates, days, by days of the median from mid-winter; linear between.
struct FrostSpread {
  std::array<double, 6> last_from_midwinter{};
  std::array<double, 6> last_sd_days{};
  std::array<double, 6> first_from_midwinter{};
  std::array<double, 6> first_sd_days{};
  std::string source;
};

/// Earliest start in spring, in the order of SowingClass.
struct EarliestStarts {
  std::array<double, 4> days_from_last_frost{};
  std::array<double, 4> hurts_seedling_c{};
  std::array<double, 4> risk{};
  std::string source;
};

/// Degree-days a day that catalogue days stand for, by base; linear between.
struct CatalogueDays {
  std::array<double, 3> cool_base_c{};
  std::array<double, 3> cool_per_day{};
  std::array<double, 5> warm_base_c{};
  std::array<double, 5> warm_per_day{};
  std::string source;
};

/// Days to emergence at 0, 5 .. 40 C: 0 = does not come, -1 = not tested.
struct EmergenceRow {
  std::string crop;  ///< stands for its forms too: onion for onion-bulb
  std::array<double, 9> days{};
};
struct Emergence {
  std::vector<EmergenceRow> rows;
  std::string source;
};

struct SiteCoefficients {
  ShelterCoefficients shelter;
  GroundCoefficients ground;
  WaterCoefficients water;
  FrostCoefficients frost;
  YearCoefficients year;
  StartCoefficients start;
  MaturityCoefficients maturity;
  WinterCoefficients winter;
  CoverGrowthCoefficients covers;
  CropLimitCoefficients limits;
  FrostSpread frost_spread;
  EarliestStarts earliest;
  CatalogueDays catalogue_days;
  Emergence emergence;
};

}  // namespace aftercrop::catalogue
