#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "aftercrop/garden/want.h"
#include "aftercrop/load/load.h"

// Worked checks of the growing data against figures printed elsewhere. Each names its source.
// Numbers run with gaps: conversions of units are held by the readers' tests, dates by those of the
// windows.
//
//   K1   beets of a home garden (MISS)           K14  cowpea and soybean, tonnes of dry matter
//   K2   cabbage per acre                        K15  young faba, K16 young pea
//   K5   seeds per ounce                         K17  sunn hemp
//   K9   beds that a want of tomatoes needs      K25  degree-days of sweet corn
//   K10  sweet corn per acre                     K28  rye at anthesis
//   K12  C:N of buckwheat                        K30  covers that die at -12 C
//   K13  sorghum-sudangrass                      K31  seed classes
//
// Misses, kept at their size: K1, the highest yield of our beet row is 8 % below the printed one.
using namespace aftercrop::catalogue;

namespace {

const Catalogue& rows() { return aftercrop::load::embedded_catalogue(); }

const Crop& crop(const std::string& id) {
  const auto found = rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return rows().crop(*found);
}

constexpr double kOunceMg = 28349.523125;
constexpr double kCarbonPct = 42.0;  // of dry matter: common practice

}  // namespace

TEST_CASE("crops checks: seed mass follows the printed number of seeds per ounce") {
  // Texas A&M, Texas Vegetable Growers' Handbook, table 2: tomato 11,500 and onion 8,500 seeds per
  // ounce: 28,349.5 / 11,500 = 2.465 mg and 28,349.5 / 8,500 = 3.335 mg a seed.
  CHECK(crop("tomato").seed_mass_mg == doctest::Approx(kOunceMg / 11500).epsilon(0.005));
  CHECK(crop("onion-bulb").seed_mass_mg == doctest::Approx(kOunceMg / 8500).epsilon(0.005));
  CHECK(crop("tomato").seed_class == SeedClass::Small);
  CHECK(crop("onion-bulb").seed_class == SeedClass::Small);
}

TEST_CASE("crops checks: C:N of buckwheat at flowering") {
  // Creamer and Baldwin, Summer cover crops, NC State Extension (through a copy): C:N 34.
  // 42 / 1.24 = 33.9.
  CHECK(kCarbonPct / crop("buckwheat").cover->n_pct[1] == doctest::Approx(34.0).epsilon(0.01));
}

TEST_CASE("crops checks: C:N of other summer covers, from the same tables") {
  // Creamer and Baldwin (as above): cowpea 21, soybean 20, sorghum-sudangrass 53, pearl millet 50,
  // Japanese millet 42.
  const std::vector<std::pair<const char*, double>> table = {{"cowpea-cover", 21},
                                                             {"soybean-cover", 20},
                                                             {"sorghum-sudan", 53},
                                                             {"pearl-millet", 50},
                                                             {"japanese-millet", 42}};
  for (const auto& [name, ratio] : table) {
    const char* id = name;
    CAPTURE(id);
    CHECK(kCarbonPct / crop(id).cover->n_pct[1] == doctest::Approx(ratio).epsilon(0.015));
  }
}

TEST_CASE("crops checks: nitrogen of covers at the printed stages") {
  // USDA NRCS 2011, Carbon to nitrogen ratios in cropping systems, Table 1: rye straw 82, wheat
  // straw 80, oat straw 70, rye at anthesis 37, pea straw 29, hairy vetch 11.
  CHECK(kCarbonPct / crop("rye").cover->n_pct[2] == doctest::Approx(82).epsilon(0.01));
  CHECK(kCarbonPct / crop("winter-wheat").cover->n_pct[2] == doctest::Approx(80).epsilon(0.01));
  CHECK(kCarbonPct / crop("oat").cover->n_pct[2] == doctest::Approx(70).epsilon(0.01));
  CHECK(kCarbonPct / crop("rye").cover->n_pct[1] == doctest::Approx(37).epsilon(0.01));
  CHECK(kCarbonPct / crop("field-pea").cover->n_pct[2] == doctest::Approx(29).epsilon(0.05));
  CHECK(kCarbonPct / crop("hairy-vetch").cover->n_pct[0] == doctest::Approx(11).epsilon(0.05));
}

TEST_CASE("crops checks: young faba and pea hold the printed nitrogen") {
  // Andersen, Samarappuli, Wick and Berti 2020, Agronomy 10:80: crude protein in autumn 304 and
  // 264 g/kg. N = protein / 6.25: 4.86 % and 4.22 %; the rows hold rounded means of several
  // sources, so within 8 %.
  CHECK(crop("faba-cover").cover->n_pct[0] == doctest::Approx(4.86).epsilon(0.08));
  CHECK(crop("field-pea").cover->n_pct[0] == doctest::Approx(4.22).epsilon(0.08));
}

TEST_CASE("crops checks: seed classes") {
  // Seeds per ounce of Texas A&M table 2; small under 5 mg, medium under 50 mg, large above:
  // borders are common practice.
  const std::vector<std::pair<const char*, SeedClass>> table = {
      {"carrot", SeedClass::Small},     {"lettuce-head", SeedClass::Small},
      {"onion-bulb", SeedClass::Small}, {"tomato", SeedClass::Small},
      {"kale", SeedClass::Small},       {"beet", SeedClass::Medium},
      {"radish", SeedClass::Medium},    {"spinach", SeedClass::Medium},
      {"cucumber", SeedClass::Medium},  {"melon", SeedClass::Medium},
      {"pepper", SeedClass::Medium},    {"bush-bean", SeedClass::Large},
      {"pea-shell", SeedClass::Large},  {"sweet-corn", SeedClass::Large},
      {"okra", SeedClass::Large},       {"squash-winter", SeedClass::Large},
      {"faba", SeedClass::Large},       {"potato", SeedClass::Vegetative},
      {"garlic", SeedClass::Vegetative}};
  for (const auto& [name, expected] : table) {
    const char* id = name;
    CAPTURE(id);
    CHECK(crop(id).seed_class == expected);
  }
  for (const Crop& one : rows().crops) {
    CAPTURE(one.id);
    if (one.seed_class == SeedClass::Vegetative) continue;
    const SeedClass by_mass = one.seed_mass_mg < 5.0    ? SeedClass::Small
                              : one.seed_mass_mg < 50.0 ? SeedClass::Medium
                                                        : SeedClass::Large;
    CHECK(one.seed_class == by_mass);
  }
}

TEST_CASE("crops checks: which covers die at -12 C") {
  // Killing temperatures: seed sheets, Dawling's lists, Penn State 2015, Southern Cover Crops
  // Council; those of common vetch and the clovers from memory. At its own limit a plant lives.
  for (const char* id : {"oat", "radish-oilseed", "mustard-brown", "mustard-white", "field-pea",
                         "faba-cover", "berseem-clover", "barley", "phacelia"}) {
    CAPTURE(id);
    CHECK(crop(id).kill_c > -12.0);
  }
  for (const char* id :
       {"common-vetch", "winter-pea", "crimson-clover", "hairy-vetch", "rye", "winter-wheat",
        "triticale", "red-clover", "annual-ryegrass", "rape-cover"}) {
    CAPTURE(id);
    CHECK(crop(id).kill_c <= -12.0);
  }
}

TEST_CASE("crops checks: yields lie inside the printed ranges per acre") {
  // New England Vegetable Management Guide, Table 15. Sweet corn 1,000 dozen an acre of 10 lb in
  // the husk: 1000 x 10 x 0.45359 / 4046.86 = 1.121 kg/m2. Cabbage "good" 30,000 lb an acre:
  // 3.363 kg/m2.
  CHECK(crop("sweet-corn").yield_per_m2.typical == doctest::Approx(1.121).epsilon(0.03));
  CHECK(crop("cabbage-late").yield_per_m2.low < 3.363);
  CHECK(crop("cabbage-late").yield_per_m2.high > 3.363);
}

TEST_CASE("crops checks: the degree-days of sweet corn land on a published sum") {
  // Oregon State Univ. Extension, degree-day article: 'Jubilee' 1539 F-days above 50 F = 855
  // C-days. Ours: (70 + 100) / 2 days x (20 - 10) C = 850.
  const Crop& corn = crop("sweet-corn");
  const double sum = (corn.days_min + corn.days_max) / 2.0 * (20.0 - corn.base_c);
  CHECK(sum == doctest::Approx(1539.0 / 1.8).epsilon(0.01));
}

TEST_CASE("crops checks: fabaceae fix what trials found") {
  // Peoples, Giller, Jensen and Herridge 2021, Plant Soil: faba and lupin 74 %, pea, cowpea and
  // vetches 62 %, common bean 38 % of nitrogen from the air.
  for (const char* id : {"faba", "faba-cover", "lupin"}) {
    CHECK(crop(id).nitrogen.fixation_share == doctest::Approx(0.74));
  }
  for (const char* id : {"pea-shell", "field-pea", "cowpea", "hairy-vetch"}) {
    CHECK(crop(id).nitrogen.fixation_share == doctest::Approx(0.62));
  }
  for (const char* id : {"bush-bean", "pole-bean", "dry-bean"}) {
    CHECK(crop(id).nitrogen.fixation_share == doctest::Approx(0.38));
  }
}

TEST_CASE("crops checks: beds that a want needs at poor, typical and good yields") {
  // 220 lb of tomatoes = 99.79 kg at 2.2, 4.0 and 8.0 kg/m2: 45.4, 24.9 and 12.5 m2.
  const Crop& tomato = crop("tomato");
  aftercrop::garden::Want want;
  want.amount = 220 * 0.45359237;
  CHECK(aftercrop::garden::area_needed_m2(want, tomato) == doctest::Approx(24.9).epsilon(0.005));
  CHECK(want.amount / tomato.yield_per_m2.low == doctest::Approx(45.4).epsilon(0.005));
  CHECK(want.amount / tomato.yield_per_m2.high == doctest::Approx(12.5).epsilon(0.005));
}

TEST_CASE("crops checks: beets of a home garden (a miss)") {
  // Univ. of Kentucky ID-128: 150 lb from 100 ft of row at 18 in: 4.88 kg/m2. The miss: our highest
  // yield is 4.5, 8 % below, for the row's middle is that of fields.
  CHECK(crop("beet").yield_per_m2.high / 4.882 == doctest::Approx(0.92).epsilon(0.01));
}

TEST_CASE("crops checks: nitrogen and biomass of summer covers") {
  // Creamer and Baldwin: sorghum-sudangrass 78 lb an acre at C:N 53: 0.792 %, 11.0 t/ha; cowpea 75
  // lb at 21: 4.20 t/ha; soybean 80 lb at 20: 4.27 t/ha. Oklahoma State: sunn hemp 5.60 t/ha.
  struct Row {
    const char* id;
    double t_ha;
  };
  for (const Row& row : {Row{"sorghum-sudan", 11.0}, Row{"cowpea-cover", 4.20},
                         Row{"soybean-cover", 4.27}, Row{"sunn-hemp", 5.60}}) {
    CAPTURE(std::string(row.id));
    CHECK(crop(row.id).cover->biomass_t_ha.low <= row.t_ha);
    CHECK(crop(row.id).cover->biomass_t_ha.high >= row.t_ha);
  }
  CHECK(crop("sorghum-sudan").cover->n_pct[1] == doctest::Approx(0.792).epsilon(0.015));
  // Sunn hemp at 60 days, 2.40 %, lies between its vegetative and its flowering stage.
  CHECK(crop("sunn-hemp").cover->n_pct[0] > 2.40);
  CHECK(crop("sunn-hemp").cover->n_pct[1] < 2.40);
}
