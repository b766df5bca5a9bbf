#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "aftercrop/nitrogen/uptake.h"
#include "support/lived_bed.h"
#include "support/soil_weeks.h"

// Worked checks of the nitrogen ledger: what its own functions and rows say of cases that were
// published elsewhere. The source stands beside each check. Numbers run with gaps: the rest of the
// series are conversions, which the tests of the readers hold.
//
//   N7   supply of a reference year per % of organic matter      N28  nitrate stops fixation of pea
//   N10  25 C against 35 C                                       N29  share fixed by three pulses
//   N11  release at 3.5 % nitrogen, N12 at 1.5 %, N13 of a mix   N30  broccoli, N31 its total
//   N14  young rye in 16 weeks                                   N32  cauliflower
//   N15  C:N of break-even                                       N33  onion
//   N16  who ties up first, N17 how much straw ties up           N34  spinach, N39 its first weeks
//   N18  vetch and rye, N19 legume tops                          N35  tomato (MISS), N36 potato
//   N20  frost-killed faba dug in and on top                     N37  steps of yield
//   N22  lucerne in its first and second year                    N38  lettuce in its last month
//   N26  roots of faba, N27 pulled by hand                       N41  leaching against Burns
//   N42  catch crop, N44 feather meal, N45 meals in two weeks    N46  cottonseed meal
//   N49  old lucerne (year 2: MISS)                              N50  tests/ledger/account_test.cpp
//
// Misses, kept at their size:
//   N35  tomato at 90 t/ha: crop 219 kg/ha against 175 printed, fruit 135 against 122. The step of
//        20 kg for 20 % of yield is the ordinance's, made for yields near the standard of 60 t/ha.
//   N49  second year after old lucerne: about 9 kg/ha against credits of 15-85. Tracer trials (1-3
//   %
//        to the second crop) and fertiliser credits differ by ten; the ledger follows the tracers.
using namespace aftercrop;
using calendar::Week;
using catalogue::Curve;
using nitrogen::Pools;

namespace {

constexpr double kPoundPerAcre = 1.12085;     // kg/ha
constexpr double kShortTonPerAcre = 2.24170;  // t/ha
constexpr double kNormalC = 20.0;             // a week at 20 C is one normal week
constexpr double kCarbonPct = 42.0;           // of dry matter, common practice

const catalogue::Crop& crop(const char* id) {
  const auto found = support::rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return support::rows().crop(*found);
}

nitrogen::Demand demand(const char* id, double t_ha) {
  return nitrogen::demand_at_yield(crop(id), t_ha / 10.0, support::coefficients());
}

double taken_by(Curve curve, double tau) {
  return nitrogen::uptake_share(nitrogen::curve_of(curve, support::coefficients()), tau);
}

bool inside(double value, double low, double high) {
  CAPTURE(value);
  CHECK(value >= low);
  CHECK(value <= high);
  return value >= low && value <= high;
}

/// Net mineral nitrogen of one tonne dug in, kg/t, after weeks at a soil temperature.
double net_of_tonne(double n_pct, double soil_c, int weeks) {
  const auto k = support::closed_soil();
  Pools pools = support::with_buried_tonne(n_pct, k);
  support::keep_at(pools, soil_c, weeks, k);
  return pools.mineral - support::kPlenty;
}

/// Share of the nitrogen of tops (n 3.5 %, 100 kg) that is mineral after months of soil.
double released(bool on_top, const std::vector<std::pair<double, int>>& spells) {
  const auto k = support::closed_soil();
  Pools pools;
  pools.mineral = support::kPlenty;
  const nitrogen::Residue tops{100, 100 / 35.0, {}};
  if (on_top) {
    nitrogen::lay_as_mulch(pools, tops, k, {});
  } else {
    nitrogen::bury(pools, tops, k, {});
  }
  for (const auto& [soil_c, weeks] : spells) support::keep_at(pools, soil_c, weeks, k);
  return (pools.mineral - support::kPlenty) / 100;
}

}  // namespace

TEST_CASE("nitrogen check N7: organic matter supplies the rule of thumb in a temperate year") {
  // Univ. of Maryland Extension: 0.4 lb per 1000 sq ft and % = 19.5 kg/ha; extension rule 20 lb an
  // acre = 22.4. Monthly soil temperatures of a temperate year, 1 % organic matter, g 0.9.
  const std::array<double, 12> soil_c = {1, 1, 4, 9, 14, 19, 22, 21, 17, 11, 6, 2};
  const std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = 1.0;
  double year = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    year +=
        days[m] / 7.0 * nitrogen::week_rates(soil_c[m], {}, soil, support::coefficients()).supply;
  }
  inside(year, 15, 27);
  CHECK(year == doctest::Approx(22.5).epsilon(0.01));
}

TEST_CASE("nitrogen check N10: 25 C against 35 C") {
  // Campbell, Myers and Weier 1981: 0.031 and 0.058 a week: 0.534.
  inside(nitrogen::temperature_factor(25) / nitrogen::temperature_factor(35), 0.40, 0.60);
}

TEST_CASE("nitrogen check N11, N12, N13: the release line of covers") {
  // Sullivan and Andrews 2012, PNW 636: 35 lb a ton at 3.5 %, nothing at 1.5 %, three quarters of
  // cereal and one of legume about nothing.
  const auto& k = support::coefficients();
  const double tons = 2.0 * kShortTonPerAcre;
  CHECK(nitrogen::final_net({35 * tons, tons, {}}, k) ==
        doctest::Approx(70 * kPoundPerAcre).epsilon(0.02));
  CHECK(std::abs(nitrogen::final_net({15, 1, {}}, k)) < 1.0);
  const double cereal = nitrogen::final_net({12 * 3.75, 3.75, {}}, k);
  const double legume = nitrogen::final_net({35 * 1.25, 1.25, {}}, k);
  inside(cereal + legume, -10, 15);
}

TEST_CASE("nitrogen check N14: young rye after sixteen warm weeks") {
  // Gomes et al. 2024 (preprint): C:N 10, 112 days at 20 C: 56 % of the nitrogen mineral.
  inside(net_of_tonne(42.0 / 10.0, kNormalC, 16) / 42.0, 0.46, 0.66);
}

TEST_CASE("nitrogen check N15: C:N at which a residue neither gives nor takes") {
  // Trinsoutrot et al. 2000, SSSAJ 64:918: 24 after 168 days at 15 C.
  double low = 0.5;
  double high = 5.0;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    (net_of_tonne(middle, 15, 24) < 0 ? low : high) = middle;
  }
  inside(kCarbonPct / low, 20, 32);
}

TEST_CASE("nitrogen check N16, N17: tie-up comes first, and straw ties up most") {
  // Trinsoutrot et al. 2000: all but two of 47 residues tied up at first, 1-33 g a kg of carbon.
  CHECK(net_of_tonne(2.0, kNormalC, 1) < 0.0);
  CHECK(net_of_tonne(5.0, kNormalC, 1) > 0.0);
  double deepest = 0.0;
  for (int week = 1; week <= 20; ++week) {
    deepest = std::min(deepest, net_of_tonne(0.58, kNormalC, week));
  }
  inside(-deepest / (kCarbonPct / 100), 5, 33);  // kg of nitrogen per t of carbon
}

TEST_CASE("nitrogen check N18: vetch and rye killed in April, nitrate in June") {
  // Lawson et al. 2015, PLoS ONE: 103 kg N in 4.1 t; soil nitrate 35 kg/ha above rye (97 - 62).
  // 4.7 normal weeks lie between 4 and 5.
  const double n_pct = 103 / 41.0;
  const double four = 4.1 * net_of_tonne(n_pct, kNormalC, 4);
  const double five = 4.1 * net_of_tonne(n_pct, kNormalC, 5);
  inside(four + 0.7 * (five - four), 20, 50);
}

TEST_CASE("nitrogen check N19: legume tops give half of their nitrogen, on top less") {
  // Minnesota and North Carolina field worksheets: 50 % dug in (40-60), 40 % left on top (25-50).
  // A first season has about 14 normal weeks at 3.5 to 4.0 % nitrogen.
  for (const double n_pct : {3.5, 3.75, 4.0}) {
    CAPTURE(n_pct);
    inside(net_of_tonne(n_pct, kNormalC, 14) / (10 * n_pct), 0.40, 0.60);
    const auto k = support::closed_soil();
    Pools top;
    nitrogen::lay_as_mulch(top, {10 * n_pct, 1.0, {}}, k, {});
    support::keep_at(top, kNormalC, 14, k);
    CHECK(top.mineral < net_of_tonne(n_pct, kNormalC, 14));
    inside(top.mineral / (10 * n_pct), 0.25, 0.52);
  }
}

TEST_CASE("nitrogen check N20: frost-killed faba, dug in and on top") {
  // Hashemi et al. 2018, Massachusetts: half of it out by the end of May dug in, by the end of June
  // on top. Soil of December to May 2, 0, 0, 2, 8, 14 C; June 18 C.
  std::vector<std::pair<double, int>> spells = {{2, 4}, {0, 9}, {2, 4}, {8, 4}, {14, 5}};
  const double dug_in = released(false, spells);
  const double on_top = released(true, spells);
  inside(dug_in, 0.35, 0.60);
  CHECK(on_top < dug_in);
  spells.emplace_back(18, 4);
  inside(released(true, spells), 0.30, 0.55);
}

TEST_CASE("nitrogen check N22: lucerne with marked nitrogen, first and second crop") {
  // Harris and Hesterman 1990, Agron. J. 82:129: 112 kg/ha; first crop took 17-25 %, second 1 %.
  // A crop catches about half of what is released; 28 normal weeks make a year.
  const auto k = support::closed_soil();
  const double dry = 112 / 30.0;
  Pools pools;
  pools.mineral = support::kPlenty;
  nitrogen::bury(pools, {112, dry, {}}, k, {});
  support::keep_at(pools, kNormalC, 28, k);
  const double first = pools.mineral - support::kPlenty;
  inside(0.5 * first / 112, 0.12, 0.30);
  support::keep_at(pools, kNormalC, 28, k);
  inside(0.5 * (pools.mineral - support::kPlenty - first) / 112, 0.0, 0.04);
}

TEST_CASE("nitrogen check N26, N27: nitrogen below ground of faba, and what pulling takes") {
  // Khan et al. 2002: 30 % below ground: 42.9 kg under 100 kg of shoots. McNeill and Unkovich 2024:
  // 33-55 % of it comes out with the plant.
  catalogue::Crop faba = crop("faba-cover");
  faba.nitrogen.below_ground_share = 0.30;
  const auto plant = nitrogen::demand_of_cover(faba, {100 / 35.0, 3.5});
  CHECK(plant.below_ground == doctest::Approx(42.9).epsilon(0.012));
  CHECK(plant.total() == doctest::Approx(142.9).epsilon(0.004));

  nitrogen::StandingCrop standing;
  standing.roots_kg_ha = plant.below_ground;
  standing.roots_dry_t_ha = plant.below_ground / 25;
  Pools pools;
  pools.crop = plant.below_ground;
  nitrogen::Journal journal;
  nitrogen::end_stand(pools, standing, catalogue::Ending::HarvestedPulled, support::coefficients(),
                      {{}, &journal});
  double gone = 0.0;
  for (const auto& one : journal.postings()) {
    if (one.cause == nitrogen::Cause::CarriedOff) gone -= one.kg_per_ha;
  }
  inside(gone, 14, 24);
  CHECK(plant.below_ground - gone >= 19);
}

TEST_CASE("nitrogen check N28: nitrate in the plough layer stops pea fixing") {
  // Voisin et al. 2002: nothing above 48 kg NO3-N/ha while growing. 60 kg lie in 30 cm of a profile
  // of 100 kg.
  const auto& pea = crop("pea-shell").nitrogen;
  nitrogen::CropWeek week;
  week.need = 15;
  week.fixation_share = pea.fixation_share;
  week.fixation_ceiling = pea.fixation_ceiling;
  week.residual = pea.residual_kg_ha;
  Pools rich{100, 0, 0, 0, 0, 0};
  const auto k = support::closed_soil();
  const auto rates = nitrogen::week_rates(12, {}, {}, k);
  CHECK(nitrogen::step(rich, rates, {}, &week, 3, k, Week(0), nullptr).fixed == 0.0);
  Pools poor{20, 0, 0, 0, 0, 0};
  CHECK(nitrogen::step(poor, rates, {}, &week, 3, k, Week(0), nullptr).fixed > 0.6 * week.need);
}

namespace {

/// Share fixed over sixteen spring weeks from 8 to 20 C.
double share_fixed(const char* id, double mineral, double organic_matter_pct) {
  const catalogue::Crop& row = crop(id);
  const auto& n = row.nitrogen;
  const auto plant = nitrogen::demand_at_yield(row, n.yield_t_ha / 10, support::coefficients());
  nitrogen::CropWeek ask;
  ask.fixation_share = n.fixation_share;
  ask.fixation_ceiling = n.fixation_ceiling;
  ask.residual = n.residual_kg_ha;
  ask.reach = nitrogen::reach(n.depth_cm, support::coefficients());
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = organic_matter_pct;
  Pools pools{mineral, 0, 0, 0, 0, 0};
  nitrogen::WeekFlows season;
  for (int i = 0; i < 16; ++i) {
    ask.need = plant.total() * (taken_by(n.curve, (i + 1) / 16.0) - taken_by(n.curve, i / 16.0));
    const auto rates = nitrogen::week_rates(8 + 12 * i / 15.0, {}, soil, support::coefficients());
    season += nitrogen::step(pools, rates, {}, &ask, 3, support::coefficients(), Week(i), nullptr);
  }
  return season.fixed / (season.fixed + season.taken_up);
}

}  // namespace

TEST_CASE("nitrogen check N29: share of nitrogen that pulses fix in a season") {
  // Peoples et al. 2021, Plant Soil: faba 74, pea 62, common bean 38 % (sd 12, 13, 11), met within
  // 18 points on soils of 30 kg and 3 % and of 60 kg and 4 % organic matter taken together.
  const auto mean = [](const char* id) {
    return (share_fixed(id, 30, 3) + share_fixed(id, 60, 4)) / 2;
  };
  const double faba = mean("faba");
  const double pea = mean("pea-shell");
  const double bean = mean("bush-bean");
  CHECK(faba > pea);
  CHECK(pea > bean);
  CHECK(std::abs(faba - 0.74) <= 0.18);
  CHECK(std::abs(pea - 0.62) <= 0.18);
  CHECK(std::abs(bean - 0.38) <= 0.18);
}

TEST_CASE("nitrogen check N30, N31: broccoli") {
  // Duengeverordnung 2017, Annex 4: 67.5 kg in 15 t of heads, credit of residues 100 = 60 % of
  // them.
  const auto heads = demand("broccoli", 15);
  CHECK(heads.harvest == doctest::Approx(67.5));
  CHECK(0.60 * heads.residue == doctest::Approx(100).epsilon(0.01));
  // Arizona 150-280, New England 185 with 88 % outside the heads, Salinas 336.
  inside(heads.uptake, 150, 340);
  inside(heads.residue / heads.uptake, 0.55, 0.90);  // Thompson et al. 2002: 10-45 % in heads
}

TEST_CASE("nitrogen check N32: cauliflower") {
  // Everaarts 2000, Sci. Hortic. 83:173: crop 170-250, residue 95-140 kg/ha.
  const auto heads = demand("cauliflower", 35);
  inside(heads.uptake, 170, 250);
  inside(heads.residue, 95, 140);
}

TEST_CASE("nitrogen check N33: onion at 20 short tons an acre") {
  // New England Vegetable Management Guide, Table 4: bulbs 110 lb, tops 35 lb an acre: 162 kg/ha.
  CHECK(demand("onion-bulb", 20 * kShortTonPerAcre).uptake ==
        doctest::Approx(145 * kPoundPerAcre).epsilon(0.30));
}

TEST_CASE("nitrogen check N34, N39: spinach") {
  // Heinrich et al. 2013, HortTechnology 23:325: 120 lb an acre taken up, 41 % left on the field;
  // 7 lb in the first 14 days, then 4.3 lb a day: 7 of 97.3 lb at 35 days.
  const auto leaves = demand("spinach", 25);
  CHECK(leaves.uptake == doctest::Approx(120 * kPoundPerAcre).epsilon(0.15));
  CHECK(leaves.residue == doctest::Approx(0.41 * 120 * kPoundPerAcre).epsilon(0.15));
  CHECK(std::abs(taken_by(crop("spinach").nitrogen.curve, 14 / 35.0) - 7 / 97.3) < 0.03);
}

TEST_CASE("nitrogen check N35: processing tomato at 40 short tons an acre (a miss)") {
  // California fertilisation guidelines: fruit 109 lb, crop 156 lb an acre (122 and 175 kg/ha).
  const auto fruit = demand("tomato", 40 * kShortTonPerAcre);
  CHECK(fruit.harvest == doctest::Approx(109 * kPoundPerAcre).epsilon(0.15));  // 135: 10 % over
  const double over = fruit.uptake / (156 * kPoundPerAcre);
  inside(over, 1.20, 1.30);  // the miss: a quarter over, outside the 20 % of the row
}

TEST_CASE("nitrogen check N36: potato at 500 cwt an acre") {
  // California guideline 156 lb an acre of tubers; the ordinance's 3.5 kg/t gives 196: 15 % apart.
  CHECK(demand("potato", 25 * kShortTonPerAcre).harvest ==
        doctest::Approx(156 * kPoundPerAcre).epsilon(0.15));
}

TEST_CASE("nitrogen check N37: a fifth of yield moves demand by its step") {
  // Duengeverordnung 2017, Annex 4 Table 5: white cabbage +40 for +20 %, lettuce -20 for -20 %.
  CHECK(demand("cabbage-late", 84).uptake - demand("cabbage-late", 70).uptake ==
        doctest::Approx(40));
  CHECK(demand("lettuce-head", 40).uptake - demand("lettuce-head", 50).uptake ==
        doctest::Approx(-20));
}

TEST_CASE("nitrogen check N38: lettuce takes most of it in its last month") {
  // Bottoms et al. 2012, HortScience 47:1768: 70-80 % in the last 30 of 65 days.
  inside(1 - taken_by(crop("lettuce-head").nitrogen.curve, 35 / 65.0), 0.65, 0.85);
}

TEST_CASE("nitrogen check N41: leaching against Burns for nitrate spread evenly") {
  // Burns 1975, 1976: share below 60 cm for field capacity (volume %) and drainage (mm). The mixing
  // form leaches more, by 0.07 at most.
  struct Row {
    double field_capacity, drained_mm, burns;
  };
  const Row rows[] = {{0.15, 50, 0.412},  {0.15, 100, 0.640}, {0.30, 100, 0.412},
                      {0.30, 200, 0.640}, {0.30, 300, 0.742}, {0.36, 200, 0.586}};
  for (const Row& row : rows) {
    CAPTURE(row.field_capacity);
    CAPTURE(row.drained_mm);
    nitrogen::SoilFigures soil;
    soil.field_capacity = row.field_capacity;
    const double ours =
        nitrogen::week_rates(5, {row.drained_mm, 0, 0, 0}, soil, support::coefficients()).leach[0];
    inside(ours - row.burns, 0.0, 0.07);
  }
}

TEST_CASE("nitrogen check N42: rye before winter halves leaching") {
  // Tonitto et al. 2006: -70 % (non-legumes); Nouri et al. 2022: grasses -52 %. Silt loam with
  // 80 kg in autumn, 200 mm over winter, four normal weeks, rye that takes 40 kg first.
  const auto& k = support::coefficients();
  const auto& silt = support::rows().soil(*support::rows().find_soil("silt-loam"));
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = 0.0;
  soil.field_capacity = silt.field_capacity;
  const auto autumn = nitrogen::week_rates(8, {}, soil, k);
  const auto winter = nitrogen::week_rates(2, {10, 10, 10, 10}, soil, k);
  const auto leached = [&](double rye_takes) {
    Pools pools{80, 0, 0, 0, 0, 0};
    nitrogen::CropWeek rye;
    rye.need = rye_takes;
    rye.residual = crop("rye").nitrogen.residual_kg_ha;
    nitrogen::step(pools, autumn, {}, &rye, 2, k, Week(0), nullptr);
    double sum = 0.0;
    for (int i = 1; i <= 20; ++i) {
      sum += nitrogen::step(pools, winter, {}, nullptr, 2, k, Week(i), nullptr).leached;
    }
    return sum;
  };
  inside(leached(40) / leached(0) - 1, -0.75, -0.35);
}

TEST_CASE("nitrogen check N44, N46: concentrated meals") {
  // Hartz and Johnstone 2006, HortTechnology 16:39: 60 % of feather meal available by 8 weeks.
  // Univ. of Maryland Extension: cottonseed meal of 6 %: 33.3 lb for 2 lb of nitrogen.
  const auto& rows = support::rows();
  const auto& feather = rows.amendment(*rows.find_amendment("feather-meal"));
  CHECK(feather.available.typical == doctest::Approx(0.60).epsilon(0.01));
  CHECK(feather.quick);
  const auto& cottonseed = rows.amendment(*rows.find_amendment("cottonseed-meal"));
  CHECK(2.0 / cottonseed.n_pct * 100 == doctest::Approx(33.3).epsilon(0.003));
}

TEST_CASE("nitrogen check N45: meals give half of their nitrogen within two warm weeks") {
  // Hartz and Johnstone 2006: 47-60 % of the organic nitrogen in two weeks at 20 C; a bed in
  // Utrecht in July is a little cooler. Mean of four meals.
  const Week start = *calendar::parse_week("2027-W27");
  double mean = 0.0;
  for (const char* meal : {"blood-meal", "feather-meal", "fish-powder", "guano"}) {
    garden::Garden garden = support::one_bed("utrecht");
    garden::Application spread;
    spread.bed = garden::BedId(0);
    spread.date = calendar::monday(start);
    spread.material = *support::rows().find_amendment(meal);
    spread.kg_per_m2 = 0.1;
    garden.applications.push_back(spread);
    const auto account =
        ledger::account(support::ledger_of(garden, "utrecht"), garden, garden::Plan());
    double out = 0.0;
    for (const auto& one : account.postings) {
      const bool counts =
          one.cause == nitrogen::Cause::Amendment || one.cause == nitrogen::Cause::ResidueRelease;
      if (!counts || one.pool != nitrogen::Pool::Mineral) continue;
      if (one.week >= start && one.week < start + calendar::Weeks(2)) out += one.kg_per_ha;
    }
    const double spread_kg_ha = 10.0 * support::rows().amendment(spread.material).n_pct;
    mean += out / spread_kg_ha / 4;
  }
  inside(mean, 0.40, 0.62);
}

TEST_CASE("nitrogen check N49: first and second year after old lucerne (second year a miss)") {
  // Minnesota 150 and 75 lb an acre, Wisconsin 190: 110-215 kg/ha in the first year, 15-85 in the
  // second. 8 t of tops at 3 %, roots 129 kg at 2.5 %; 28 normal weeks a year.
  const auto k = support::closed_soil();
  Pools pools;
  pools.mineral = support::kPlenty;
  nitrogen::bury(pools, {240, 8.0, {}}, k, {});
  nitrogen::bury(pools, {129, 129 / 25.0, {}}, k, {});
  support::keep_at(pools, kNormalC, 28, k);
  const double first = pools.mineral - support::kPlenty;
  inside(first, 110, 215);
  support::keep_at(pools, kNormalC, 28, k);
  const double second = pools.mineral - support::kPlenty - first;
  inside(second, 5, 15);  // the miss: below the credit of 15
}
