#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/crop_words.h"
#include "aftercrop/catalogue/ending.h"
#include "aftercrop/catalogue/ids.h"
#include "aftercrop/catalogue/range.h"
#include "aftercrop/catalogue/site_rows.h"

namespace aftercrop::catalogue {

/// What a crop takes up and leaves, for one standard yield. Source: `sources`, topic "nitrogen".
struct NitrogenFigures {
  double yield_t_ha = 0.0;        ///< fresh yield the row stands for
  double uptake_kg_ha = 0.0;      ///< U: above ground, or above ground and harvested root
  double harvest_kg_per_t = 0.0;  ///< nitrogen in the harvest, kg per t fresh
  double residue_n_pct = 2.0;     ///< nitrogen in residue dry matter, %
  double step_kg_ha = 20.0;       ///< change of U for 20 % of yield
  double depth_cm = 60.0;         ///< rooted depth that is sampled: 15, 30, 60, 90
  double residual_kg_ha = 20.0;   ///< mineral nitrogen that the roots cannot or should not empty
  Curve curve = Curve::Leafy;
  double below_ground_share = 0.12;  ///< beta: share of plant nitrogen below ground
  double root_n_pct = 2.0;           ///< nitrogen in root dry matter, %
  double fixation_share = 0.0;       ///< P0, 0 for non-legumes
  double fixation_ceiling = 0.0;     ///< greatest share of a week's need that can be fixed
};

/// Days of the year between which growers of a place start a crop; they may run over the new year.
struct StartDates {
  MonthDay first;
  MonthDay last;
};

/// A sowing window in whole weeks from the site's median frosts.
struct CoverWindow {
  FrostAnchor from_anchor = FrostAnchor::LastFrost;
  int from_weeks = 0;
  FrostAnchor to_anchor = FrostAnchor::LastFrost;
  int to_weeks = 0;
};

/// Figures that only a cover crop has.
struct CoverFigures {
  std::vector<CoverWindow> windows;
  double seed_g_m2 = 0.0;
  int weeks_to_stand = 5;         ///< from sowing to a useful stand, with growth
  Range biomass_t_ha;             ///< top growth, dry matter, at the usual end
  std::array<double, 3> n_pct{};  ///< of top growth: vegetative, flowering, mature
  double root_n_share = 0.15;     ///< recoverable roots only: what leaves when plants are pulled
  std::vector<Ending> endings;    ///< usual first
  bool crimp_at_flowering = false;
  Regrowth regrowth = Regrowth::Low;
  Fumigant fumigant = Fumigant::None;
  double fumigant_species_factor = 0.0;  ///< 0..1, species factor of biofumigation quality
  int weed_suppression = 2;              ///< 1 weak .. 4 strong
  std::array<int, 3> wait_weeks{};  ///< small, large seed, plants: where the residue has no row
};

/// A part of a mixture of covers.
struct MixturePart {
  CropId crop;
  double share = 0.0;  ///< of the ground cover, 0..1; the shares of a mixture add up to 1
};

/// The heat above which flowers or tubers do not set.
struct Setting {
  static constexpr double kNoLimit = 99.0;
  int weeks = 0;              ///< before the first harvest
  double night_c = kNoLimit;  ///< weekly mean minimum
  double day_c = kNoLimit;    ///< weekly mean maximum
};

/// One crop or cover crop. Yields: fresh kg (or stems) per m2 of bed, whole harvest of a planting.
struct Crop {
  std::string id;
  std::string name;
  std::string botanical_name;
  std::vector<std::string> also;  ///< other names accepted wherever the id is
  FamilyId family;
  BreakGroupId group;
  std::string kind;  ///< vegetable, herb, flower, grain, fruit, cover
  CropId form_of;    ///< the crop that this is a form of; unknown = a crop of its own
  std::vector<MixturePart> mixture;  ///< empty = not a mixture

  Start start = Start::Sow;
  Range plug_weeks;  ///< under cover before planting out; 0 for sown crops
  double in_row_cm = 0.0;
  double between_row_cm = 0.0;
  double depth_cm = 0.0;
  SeedClass seed_class = SeedClass::Small;
  double seed_mass_mg = 0.0;  ///< one seed; 0 = vegetative
  bool days_from_transplanting = false;
  double days_min = 0.0;
  double days_max = 0.0;
  HarvestMode harvest_mode = HarvestMode::Single;
  int harvest_weeks_min = 0;
  int harvest_weeks_max = 0;
  YieldUnit yield_unit = YieldUnit::None;
  Range yield_per_m2;
  double smallest_stand_m2 = 0.5;

  Hardiness hardiness = Hardiness::Hardy;
  SowingClass sowing_class = SowingClass::Hardy;
  double kill_c = 0.0;      ///< screen minimum that ends a mature unprotected plant
  double base_c = 4.4;      ///< degree-day base of the crop group
  double cap_c = 24.0;      ///< horizontal cut-off
  double soil_min_c = 4.0;  ///< soil at sowing depth below which seed does not come
  /// Least weekly mean air of a start in spring: colder springs make it bolt or button.
  std::optional<double> spring_min_c;
  std::optional<double> soil_max_c;  ///< above it seed does not come up
  double growth_min_c = 4.0;         ///< weekly mean air for good growth
  double growth_max_c = 24.0;
  std::optional<Setting> setting;
  /// What growers of the place say, in open ground in the place of what the climate tells; empty =
  /// nothing.
  std::vector<StartDates> local_calendar;
  bool overwinters = false;  ///< stands through winter by design
  LifeCycle life_cycle = LifeCycle::Annual;
  int productive_years = 1;
  double root_depth_cm = 60.0;
  std::optional<int> succession_weeks;
  std::string edible_part;
  bool touches_soil = false;
  Work work = Work::Medium;
  std::string support;  ///< what it climbs or is tied to; empty = stands by itself

  Feeder feeder = Feeder::Medium;
  NitrogenFigures nitrogen;
  std::optional<CoverFigures> cover;   ///< empty for food crops and flowers
  ResidueId residue;                   ///< plant-back class of its residue; unknown = none
  bool legume = false;                 ///< fixes nitrogen
  std::vector<std::string> resistant;  ///< ids of diseases that its varieties resist
  std::vector<std::string> tolerant;   ///< ids of diseases that they bear, but feed
  std::vector<std::string> cautions;   ///< ids of cautions
  std::vector<Citation> sources;

  [[nodiscard]] bool is_cover() const { return cover.has_value(); }
  [[nodiscard]] bool perennial() const { return life_cycle == LifeCycle::Perennial; }
  /// Always or usually set out as a plant.
  [[nodiscard]] bool transplanted() const {
    return start == Start::Transplant || start == Start::Slip || start == Start::Crown;
  }
  /// Roots, bulbs and tubers are eaten: pulled at harvest.
  [[nodiscard]] bool root_harvest() const {
    return edible_part == "root" || edible_part == "tuber" || edible_part == "bulb";
  }
};

}  // namespace aftercrop::catalogue
