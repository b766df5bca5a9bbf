#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/ids.h"
#include "aftercrop/catalogue/range.h"

namespace aftercrop::catalogue {

/// A day of the year without a year.
struct MonthDay {
  int month = 1;
  int day = 1;
  friend bool operator==(const MonthDay&, const MonthDay&) = default;
};

/// Monthly normals of one place. All arrays run January to December in both hemispheres.
struct ClimateNormals {
  std::string id;
  std::string name;
  std::string station;
  std::string country;
  std::string type;        ///< in words: "continental, short season"
  double latitude = 0.0;   ///< degrees, south negative
  double longitude = 0.0;  ///< degrees, west negative
  double elevation_m = 0.0;
  std::array<double, 12> tmax_c{};
  std::array<double, 12> tmin_c{};
  std::array<double, 12> rain_mm{};
  std::array<double, 12> sd_c{};       ///< of daily mean temperature inside the month
  std::optional<MonthDay> last_frost;  ///< median; empty = fewer than half of the years
  std::optional<MonthDay> first_frost;
  std::optional<double> last_frost_sd_days;
  std::optional<double> first_frost_sd_days;
  double frost_years = 1.0;  ///< share of years with any air frost
  int years = 0;             ///< fewest years behind any figure
  std::string period;
  std::vector<Citation> sources;
};

/// A soil texture class. Water as volume fractions.
struct Soil {
  std::string id;
  std::string name;
  double wilting_point = 0.14;
  double field_capacity = 0.28;
  double saturation = 0.46;
  double bulk_density = 1.35;  ///< g/cm3
  double wetness = 1.0;        ///< multiplies gaseous loss: 1 well drained, 2 clay, 0.5 sand
  std::vector<Citation> sources;
};

/// Something that is spread for its nitrogen.
struct Amendment {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  double n_pct = 1.0;          ///< of the material as sold
  Range available;             ///< share in the first season
  double mineral_share = 0.0;  ///< of the available part, at once
  double slow_share = 0.3;     ///< of the rest, into the slow pool
  bool quick = false;          ///< concentrated meal: works fast even when cool
  bool raw_manure = false;     ///< days-to-harvest interval applies
  bool fresh_matter = false;   ///< straw, leaves: treated as a residue of its own dry matter
  double dry_matter = 1.0;     ///< share of the material as sold (fresh matter)
  double tie_up_share = 1.0;  ///< fresh matter: of its dry matter, what ties up nitrogen (wood 0.3)
  double kg_per_litre = 0.6;
  std::vector<std::string> cautions;
  std::vector<Citation> sources;
};

/// How long a residue hinders what is sown or planted after it, in weeks for the smallest seed.
struct ResidueClass {
  std::string id;
  std::string name;
  int incorporated = 0;       ///< leafy, dug in
  int mulch = 0;              ///< left on top
  int transplants = 0;        ///< before transplants, not scaled by seed mass
  int late_incorporated = 0;  ///< at heading or later
  int late_mulch = 0;
  int late_transplants = 0;
  int winterkilled = 0;
  int mulch_transplants = 0;   ///< before transplants into mulch (sorghum-sudangrass kills them)
  int least_incorporated = 0;  ///< dug in green: nothing sooner, however large the seed
  std::vector<Citation> sources;
};

/// When a caution of a crop is said: as it is started, as it is picked, as its stand ends.
enum class Moment { Start, Harvest, End };

/// A sentence shown where advice could hurt.
struct Caution {
  std::string id;
  std::string text;
  Moment when = Moment::Start;
  std::vector<Citation> sources;
};

}  // namespace aftercrop::catalogue
