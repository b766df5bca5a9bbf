#include <algorithm>
#include <array>
#include <cmath>

#include "aftercrop/nitrogen/uptake.h"
#include "support/check_table.h"
#include "support/soil_weeks.h"

// What crops of the catalogue have to find over their lives against the demand values of the German
// Fertilising Ordinance 2017, Annex 4 Table 4: nitrogen on offer in the sampled depth, what lies
// there in spring included, at the yield of its row. What ordinary soil gives while the crop stands
// is not on offer: the ordinance takes nothing off its values below 4 % humus. A ledger that asks
// for much more would have growers buy more than the ordinance lets them.
using namespace aftercrop;

namespace {

struct Row {
  const char* crop;
  double demand;  ///< kg N/ha
};

constexpr std::array<Row, 25> kRows = {{
    {"cauliflower", 300},  {"broccoli", 310},        {"dill", 85},     {"kale", 200},
    {"kohlrabi", 230},     {"squash-winter", 140},   {"carrot", 125},  {"parsnip", 140},
    {"leek", 250},         {"radish", 110},          {"beet", 250},    {"lettuce-leaf", 130},
    {"lettuce-head", 150}, {"lettuce-romaine", 140}, {"endive", 190},  {"chives", 210},
    {"celeriac", 220},     {"celery", 230},          {"spinach", 190}, {"cabbage-late", 260},
    {"sweet-corn", 160},   {"onion-bunching", 210},  {"rhubarb", 280}, {"asparagus", 80},
    {"strawberry", 120},
}};

constexpr double kHumusPct = 3.0;
constexpr double kGrowingWeeks = 26.0;  // April to September: what a perennial has at most

/// Soil of April to September in a temperate year, C.
constexpr std::array<double, 6> kSoilC = {9, 14, 19, 22, 21, 17};

/// What the soil gives in a week of the growing season, kg N/ha.
double weekly_supply() {
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = kHumusPct;
  double sum = 0.0;
  for (const double soil_c : kSoilC) {
    sum += nitrogen::week_rates(soil_c, {}, soil, support::coefficients()).supply;
  }
  return sum / kSoilC.size();
}

/// Weeks that a crop stands in the bed, two more from seed.
double weeks_of(const catalogue::Crop& crop) {
  const double days = 0.5 * (crop.days_min + crop.days_max);
  const double weeks = days / 7.0 + (crop.days_from_transplanting ? 0.0 : 2.0);
  return std::min(weeks, kGrowingWeeks);
}

/// Times the demand value that the ledger wants on offer: the need of a crop of the row's own
/// yield, roots and soil life included, and what no root empties, less what the soil gives.
double asked(const Row& row) {
  const auto id = support::rows().find_crop(row.crop);
  REQUIRE_MESSAGE(id, row.crop);
  const catalogue::NitrogenFigures& n = support::rows().crop(*id).nitrogen;
  const double need = nitrogen::demand_at_yield(support::rows().crop(*id), n.yield_t_ha / 10.0,
                                                support::coefficients())
                          .total();
  const double drawn = need / support::coefficients().recovery;
  const double given = weekly_supply() * weeks_of(support::rows().crop(*id));
  return (drawn + n.residual_kg_ha - given) / row.demand;
}

}  // namespace

TEST_CASE("published: crops ask for what the ordinance wants on offer") {
  std::array<double, kRows.size()> ratio{};
  std::transform(kRows.begin(), kRows.end(), ratio.begin(), asked);
  const auto near = std::count_if(ratio.begin(), ratio.end(),
                                  [](double one) { return std::abs(one - 1.0) <= 0.25; });
  std::sort(ratio.begin(), ratio.end());
  const double median = ratio[ratio.size() / 2];
  fmt::print("demand values: {} of {} crops within a quarter, median {:.2f} of the ordinance's\n",
             near, ratio.size(), median);
  CHECK(median >= 0.8);
  CHECK(median <= 1.25);
}
