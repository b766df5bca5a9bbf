#pragma once

#include <algorithm>
#include <array>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/ids.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/nitrogen/journal.h"

namespace aftercrop::nitrogen {

/// The nitrogen of one bed, kg N/ha, none negative.
struct Pools {
  double mineral = 0.0;  ///< nitrate and ammonium in the profile
  double fast = 0.0;     ///< residue nitrogen in the soil that is released within weeks
  double tie_up = 0.0;   ///< what microbes still want from `mineral`
  double mulch = 0.0;    ///< like `fast`, on the surface
  double slow = 0.0;     ///< half-life of years
  double crop = 0.0;     ///< in the standing crop, roots included
  double fresh = 0.0;    ///< of `mineral`, what was released in the topsoil and still lies there
  [[nodiscard]] double at(Pool pool) const;
  /// Nitrogen comes into `mineral` in the topsoil.
  void release(double kg_per_ha) {
    mineral += kg_per_ha;
    fresh += kg_per_ha;
  }
  /// Nitrogen leaves `mineral`, from the topsoil and from what is spread alike.
  void draw(double kg_per_ha) {
    if (mineral > 0.0) fresh *= std::max(0.0, 1.0 - kg_per_ha / mineral);
    mineral -= kg_per_ha;
  }
  friend bool operator==(const Pools&, const Pools&) = default;
};

/// What a week does to any bed of one soil, whatever stands there: shares and amounts worked out
/// once from soil temperature and drainage.
struct WeekRates {
  double supply = 0.0;        ///< kg N/ha from soil organic matter
  double supply_below = 0.0;  ///< of that, under the topsoil
  double deposition = 0.0;    ///< kg N/ha
  double fast = 0.0;          ///< share of `fast` released
  double mulch = 0.0;
  double slow = 0.0;
  double tie_up = 0.0;            ///< share of the demand that is claimed
  double gas = 0.0;               ///< share of `mineral` lost as gas
  std::array<double, 4> leach{};  ///< share of spread `mineral` leached under each ground
};

struct SoilFigures {
  double organic_matter_pct = 3.0;
  double field_capacity = 0.28;
  double wetness = 1.0;
  double moisture = 0.9;       ///< g
  double annual_factor = 1.0;  ///< corrects the supply where the year is very cold or hot
};

/// Temperature factor of mineralisation: 1 at 20 C, doubling every 10 C, 0 at and below 0 C, flat
/// above 35 C. Source: Stanford, Frere and Schwaninger 1973 (Q10 = 2).
[[nodiscard]] double temperature_factor(double soil_c, double q10 = 2.0);

/// Weeks in which half of the mineralisable nitrogen is released at a soil temperature.
[[nodiscard]] double half_life_weeks(double soil_c, const catalogue::NitrogenCoefficients& k);
/// The whole mineralisable nitrogen of a soil that released `released` in two weeks at 35 C, in its
/// unit. Source: Stanford, Carter and Smith 1974, SSSAP 38:99.
[[nodiscard]] double mineralisable(double released, const catalogue::NitrogenCoefficients& k);
/// What such a pool gives in a year of so many normal weeks.
[[nodiscard]] double released_in(double normal_weeks, double pool,
                                 const catalogue::NitrogenCoefficients& k);

/// Share of the profile's supply that its upper `depth_cm` give, between 0 and 1.
[[nodiscard]] double supply_share(double depth_cm, const catalogue::NitrogenCoefficients& k);

/// Shares of one week from soil temperature at 10 cm and drainage (mm) under the four grounds.
[[nodiscard]] WeekRates week_rates(double soil_c, const std::array<double, 4>& drainage_mm,
                                   const SoilFigures& soil,
                                   const catalogue::NitrogenCoefficients& k);

/// What the crop asks in one week.
struct CropWeek {
  double need = 0.0;       ///< kg N/ha, roots included
  double reach = 1.0;      ///< share of `mineral` that the roots reach
  double residual = 20.0;  ///< kg N/ha of `mineral` that they cannot empty
  double fixation_share = 0.0;
  double fixation_ceiling = 0.0;
  bool buys = false;  ///< a shortfall is bought
  catalogue::CropId crop;
};

/// What comes in at the start of a week.
struct Additions {
  double mineral = 0.0;
  double fast = 0.0;
  double slow = 0.0;
  double tie_up = 0.0;
  double ley = 0.0;  ///< after an old perennial legume, straight into `mineral`
};

/// Flows of one week that the rest of the program asks about, kg N/ha.
struct WeekFlows {
  double taken_up = 0.0;
  double fixed = 0.0;
  double shortfall = 0.0;  ///< need that neither soil nor air covered (bought or not)
  double bought = 0.0;     ///< what covers it once soil life has had its share
  double leached = 0.0;
  double gas = 0.0;
  double harvested = 0.0;  ///< taken from the crop by the stand's picking, not by the week itself
  WeekFlows& operator+=(const WeekFlows& other);
};

/// Steps 1 to 8 of a week: additions, soil supply, releases, tie-up, crop, gas, leaching. Every
/// flow is posted when a journal is given. `ground` is 0 bare, 1 mulch, 2 cover, 3 crop.
/// Source: the ledger's equations and their published anchors stand beside the coefficients.
WeekFlows step(Pools& pools, const WeekRates& rates, const Additions& additions,
               const CropWeek* crop, std::size_t ground, const catalogue::NitrogenCoefficients& k,
               calendar::Week week, Journal* journal);

}  // namespace aftercrop::nitrogen
