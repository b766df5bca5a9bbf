#include "aftercrop/nitrogen/uptake.h"

#include <doctest/doctest.h>

#include <cmath>

#include "support/soil_weeks.h"

using namespace aftercrop;
using catalogue::Curve;

namespace {

const catalogue::Crop& crop(const char* id) {
  const auto found = support::rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return support::rows().crop(*found);
}

const catalogue::NitrogenCoefficients& k() { return support::coefficients(); }

double taken_by(Curve curve, double tau) {
  return nitrogen::uptake_share(nitrogen::curve_of(curve, k()), tau);
}

}  // namespace

TEST_CASE("uptake: the curves at a quarter, half and three quarters of the time") {
  struct Row {
    Curve curve;
    double quarter, half, three;
  };
  // Each type's published or remembered shape to two decimals. Bulb at three quarters, steepness 9,
  // midpoint 0.65: (0.7109 - 0.0029) / (0.9589 - 0.0029) = 0.74.
  const Row rows[] = {{Curve::Heading, 0.03, 0.18, 0.65},  {Curve::Leafy, 0.03, 0.18, 0.65},
                      {Curve::Root, 0.04, 0.29, 0.81},     {Curve::Bulb, 0.03, 0.21, 0.74},
                      {Curve::Fruiting, 0.10, 0.42, 0.83}, {Curve::Maize, 0.04, 0.45, 0.93},
                      {Curve::Tuber, 0.13, 0.61, 0.94},    {Curve::Grain, 0.05, 0.33, 0.83},
                      {Curve::Legume, 0.04, 0.29, 0.77},   {Curve::Cover, 0.09, 0.37, 0.77}};
  for (const Row& row : rows) {
    CAPTURE(static_cast<int>(row.curve));
    CHECK(std::abs(taken_by(row.curve, 0.25) - row.quarter) < 0.0101);
    CHECK(std::abs(taken_by(row.curve, 0.50) - row.half) < 0.0101);
    CHECK(std::abs(taken_by(row.curve, 0.75) - row.three) < 0.0101);
  }
}

TEST_CASE("uptake: a curve starts at nothing, ends at all and never falls") {
  for (int type = 0; type <= static_cast<int>(Curve::Perennial); ++type) {
    CAPTURE(type);
    const auto curve = static_cast<Curve>(type);
    CHECK(taken_by(curve, 0.0) == 0.0);
    CHECK(taken_by(curve, 1.0) == doctest::Approx(1.0));
    CHECK(taken_by(curve, 1.7) == doctest::Approx(1.0));
    for (int i = 0; i < 20; ++i) {
      CHECK(taken_by(curve, i / 20.0) < taken_by(curve, (i + 1) / 20.0));
    }
  }
}

TEST_CASE(
    "uptake: a crop's demand at its own yield is its row, and what is picked and left add up") {
  for (const catalogue::Crop& row : support::rows().crops) {
    if (row.is_cover() || row.nitrogen.yield_t_ha <= 0.0) continue;
    CAPTURE(row.id);
    const auto demand = nitrogen::demand_at_yield(row, row.nitrogen.yield_t_ha / 10.0, k());
    CHECK(demand.uptake == doctest::Approx(row.nitrogen.uptake_kg_ha));
    CHECK(demand.harvest + demand.residue == doctest::Approx(demand.uptake));
    CHECK(demand.residue >= 0.0);
    CHECK(demand.below_ground == doctest::Approx(row.nitrogen.below_ground_share * demand.total()));
  }
}

TEST_CASE("uptake: a failed yield still takes two fifths, and is never more than taken up") {
  const auto none = nitrogen::demand_at_yield(crop("cabbage-late"), 0.0, k());
  CHECK(none.uptake == doctest::Approx(0.4 * 265));  // 265 - 40 x 5 = 65 is below 106
  CHECK(none.harvest == 0.0);
  for (const double yield : {0.5, 2.0, 8.0, 30.0}) {
    const auto demand = nitrogen::demand_at_yield(crop("kale"), yield, k());
    CHECK(demand.harvest <= demand.uptake);
  }
}

TEST_CASE(
    "uptake: a cover's tops grow in an S towards its usual biomass and lose nitrogen with age") {
  const catalogue::Crop& rye = crop("rye");
  const double full = rye.cover->biomass_t_ha.typical;
  CHECK(nitrogen::cover_growth(rye, 0.0, k()).dry_t_ha == 0.0);
  CHECK(nitrogen::cover_growth(rye, 0.5, k()).dry_t_ha == doctest::Approx(full / 2));
  CHECK(nitrogen::cover_growth(rye, 1.0, k()).dry_t_ha == doctest::Approx(full));
  CHECK(nitrogen::cover_growth(rye, 2.0, k()).dry_t_ha == doctest::Approx(full));
  CHECK(nitrogen::cover_growth(rye, 0.5, k()).n_pct == doctest::Approx(rye.cover->n_pct[0]));
  CHECK(nitrogen::cover_growth(rye, 1.0, k()).n_pct == doctest::Approx(rye.cover->n_pct[1]));
  CHECK(nitrogen::cover_growth(rye, 1.45, k()).n_pct == doctest::Approx(rye.cover->n_pct[2]));
  CHECK(nitrogen::cover_growth(rye, 3.0, k()).n_pct == doctest::Approx(rye.cover->n_pct[2]));
}

TEST_CASE("uptake: shallow roots reach less of the profile") {
  CHECK(nitrogen::reach(15, k()) == doctest::Approx(0.35));
  CHECK(nitrogen::reach(30, k()) == doctest::Approx(0.60));
  CHECK(nitrogen::reach(60, k()) == 1.0);
  CHECK(nitrogen::reach(90, k()) == 1.0);
}
