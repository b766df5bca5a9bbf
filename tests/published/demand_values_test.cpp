#include <algorithm>
#include <array>
#include <cmath>

#include "aftercrop/nitrogen/uptake.h"
#include "support/check_table.h"
#include "support/soil_weeks.h"

// What crops of the catalogue have to find over their lives against the demand values of the German
// Fertilising Ordinance 2017, Annex 4 Table 4: nitrogen on offer in the sampled depth, what lies
// there in spring included, at the yield of its row. A ledger that asks for much more would have
// growers buy more than the ordinance lets them.
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

/// Times the demand value that the ledger wants on offer: the need of a crop of the row's own
/// yield, roots included, and what no root empties.
double asked(const Row& row) {
  const auto id = support::rows().find_crop(row.crop);
  REQUIRE_MESSAGE(id, row.crop);
  const catalogue::NitrogenFigures& n = support::rows().crop(*id).nitrogen;
  const double need = nitrogen::demand_at_yield(support::rows().crop(*id), n.yield_t_ha / 10.0,
                                                support::coefficients())
                          .total();
  return (need + n.residual_kg_ha) / row.demand;
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
