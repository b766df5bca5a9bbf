#pragma once

#include <cstdint>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/water.h"
#include "aftercrop/climate/window.h"
#include "aftercrop/disease/load.h"
#include "aftercrop/garden/planting.h"
#include "aftercrop/nitrogen/step.h"
#include "aftercrop/nitrogen/uptake.h"

namespace aftercrop::ledger {

/// What a planting is, before anything is worked out.
struct StandSpec {
  catalogue::CropId crop;
  calendar::WeekSpan weeks;
  calendar::WeekSpan harvest;  ///< empty span = no harvest
  catalogue::Ending ending = catalogue::Ending::HarvestedCut;
  garden::Resistance resistance = garden::Resistance::None;
  double yield_kg_m2 = -1.0;  ///< negative = typical
  double dry_t_ha = -1.0;     ///< a cover's measured top growth; negative = not measured
  double n_pct = -1.0;        ///< its measured nitrogen
};

[[nodiscard]] StandSpec spec_of(const garden::Planting& planting);

/// What a stand does to one tracked pathogen.
struct StandLoad {
  disease::LoadMap week;  ///< each week of the stand
  bool host = false;
  bool prone = false;
  double infection = 1.0;      ///< phi / tau: load times this is what the crop meets
  double kept_cautious = 1.0;  ///< share of the load that its end leaves, low efficacy
  double kept_central = 1.0;
  bool effective = false;   ///< an effective biofumigation
  int worse_with = -1;      ///< tracked place of a trouble that makes this one worse; -1 = none
  double worse_from = 0.0;  ///< from this load of it on
  double worse_factor = 1.0;
};

/// A planting with all that follows from catalogue and climate alone: the same for every bed of
/// one site, whatever the bed's state. Worked out once, folded often.
struct Stand {
  StandSpec spec;
  bool cover = false;
  bool legume = false;
  bool useful = false;   ///< a cover that reaches its useful stand
  bool renews = false;   ///< a perennial of several years: last year's tops die back each year
  bool old_ley = false;  ///< a perennial legume that stood for two seasons
  climate::CoverProgress progress;
  int season_as_next = 0;      ///< season-year for a break before it
  int season_as_previous = 0;  ///< season-year for a break after it
  nitrogen::Demand demand;
  double tops_dry_t_ha = 0.0;
  double roots_dry_t_ha = 0.0;
  double tops_n_pct = 0.0;
  std::vector<double> need;      ///< kg N/ha, one a week of the stand
  nitrogen::CropWeek crop_week;  ///< everything of the week's demand but `need`
  bool may_buy = false;          ///< a food crop that is not a legume
  bool from_seed = false;        ///< sown in place: roots reach little in the first two weeks
  climate::Ground ground = climate::Ground::Crop;
  disease::Quality fumigation;  ///< quality as a biofumigant; q 0 if it is none
  bool fumigant = false;
  std::uint32_t returns_as_next = 0;      ///< host-return rows, a bit a row, that it must heed
  std::uint32_t returns_as_previous = 0;  ///< and that it starts
  std::vector<StandLoad> loads;           ///< one a tracked pathogen
};

/// What a stand did in one bed.
struct StandOutcome {
  nitrogen::WeekFlows flows;  ///< sums over its weeks, kg N/ha
  double harvested = 0.0;     ///< kg N/ha taken with the harvest
  int bare_weeks = 0;
};

}  // namespace aftercrop::ledger
