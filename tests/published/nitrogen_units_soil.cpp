#include <array>
#include <cmath>

#include "aftercrop/garden/planting.h"
#include "load/measure.h"
#include "published/nitrogen_tables.h"
#include "support/embedded_garden.h"
#include "support/soil_weeks.h"

namespace aftercrop::published {
namespace {

constexpr double kKgHa = 10000.0;  // of 1 kg/m2
constexpr double kPoundPerAcre = 1.12085;

/// kg/ha of a quantity as a grower types it.
double typed_kg_ha(const char* text) {
  diagnostic::Diagnostics out;
  const load::Ask ask{"it", {load::Dimension::MassPerArea}, "", {0, 1e9}};
  const auto measure = load::parse_measure(text, ask, {}, out);
  return measure ? measure->value * kKgHa : -1.0;
}

const std::string kSiltLoamBed =
    "garden: Lot\nsite: {climate: minneapolis}\nseasons: {from: 2027-03-01, years: 1}\n"
    "beds:\n  - {bed: A, length: 24 ft, width: 4 ft, soil: silt loam, organic_matter: 3 %}\n";

/// Nitrate-N of the sampled depth that the ledger takes a typed test for, kg/ha; ppm with `as_ppm`.
double tested(const std::string& test, bool as_ppm) {
  const auto loaded = support::embedded_garden(kSiltLoamBed + "tests:\n  - " + test + "\n");
  if (as_ppm) return *loaded.garden.tests.front().nitrate_n_ppm;
  const auto account = support::account_of(loaded, "A");
  const double upper = loaded.catalogue.coefficients.nitrogen.plough_layer_share;
  return account.tests.front().computed * upper;  // 30 cm hold that share of the profile
}

double cover_height_dry(const char* height, const char* crop) {
  const auto loaded = support::embedded_garden(
      kSiltLoamBed + "history:\n  - {bed: A, crop: " + crop +
      ", from: 2026-04-01, to: 2026-06-10, ending: incorporated, height: " + height + "}\n");
  return *loaded.garden.history.front().dry_t_ha * 1000.0 / kPoundPerAcre;
}

}  // namespace

void check_units(support::CheckTable& table) {
  table.about("N1", 'A', "definition");
  const double soil_test =
      tested("{bed: A, date: 2027-03-10, nitrate_n: 14 ppm, depth: 30 cm}", false);
  table.near("14 ppm in 30 cm of silt loam, kg/ha", soil_test, 54.6, 0.1);
  table.near("the same, lb/acre", soil_test / typed_kg_ha("1 lb/acre"), 48.7, 0.1);
  table.near("the same, lb/1000 ft2", soil_test / typed_kg_ha("1 lb/1000 ft2"), 1.12, 0.1);

  table.about("N2", 'A', "definition");
  const double hundred = typed_kg_ha("100 lb/acre");
  table.within("100 lb/acre, kg/ha", hundred, 112.085, 1e-4);
  table.within("the same, lb/1000 ft2", hundred / typed_kg_ha("1 lb/1000 ft2"), 2.2957, 1e-4);
  table.within("the same, oz/100 ft2", hundred / typed_kg_ha("1 oz/100 ft2"), 3.673, 1e-4);
  table.within("the same, g/m2", hundred / typed_kg_ha("1 g/m2"), 11.2085, 1e-4);

  table.about("N3", 'A', "magazine answer on the pre-sidedress test, factor 0.226");
  table.near("42 ppm of nitrate, as nitrogen",
             tested("{bed: A, date: 2027-03-10, nitrate: 42 ppm, depth: 30 cm}", true), 9.49, 0.01);

  table.about("N4", 'A', "North Carolina field worksheet");
  const double cut = typed_kg_ha("0.15 lb/ft2");  // 1.2 lb from two cuts of 2 x 2 ft
  table.within("dry matter, lb/acre", cut / kPoundPerAcre, 6534, 0.005);
  table.within("its nitrogen at 4 %, lb/acre", 0.04 * cut / kPoundPerAcre, 261, 0.005);
  table.within("half of it, kg/ha", 0.5 * 0.04 * cut, 146.5, 0.005);

  table.about("N5", 'A', "North Dakota field note");
  table.within("20.8 g dry a square foot, kg/ha", typed_kg_ha("20.8 g/ft2"), 2240, 0.005);

  table.about("N6", 'A', "North Dakota field note");
  table.within("full broadleaf cover of 10 inches, lb/acre", cover_height_dry("10 in", "buckwheat"),
               2600, 1e-4);
  table.within("rye of 8 inches, lb/acre", cover_height_dry("8 in", "rye"), 2000, 1e-4);
}

void check_soil(support::CheckTable& table) {
  // Monthly soil temperatures of a temperate year, 1 % organic matter, moisture factor 0.9.
  const std::array<double, 12> soil_c = {1, 1, 4, 9, 14, 19, 22, 21, 17, 11, 6, 2};
  const std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = 1.0;
  double year = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    const auto rates = nitrogen::week_rates(soil_c[m], {}, soil, support::coefficients());
    year += days[m] / 7.0 * rates.supply;
  }
  const auto& k = support::coefficients();
  table.about("N7", 'B', "Univ. of Maryland Extension (19.5 kg/ha); extension rule 20 lb/acre");
  // The rules are for the furrow slice; the ledger's year is that of the whole profile.
  table.inside("supply of 1 % organic matter, furrow slice, kg/ha a year",
               year * nitrogen::supply_share(k.slice_cm, k), 15, 27);
  table.about("N8", 'A', "Stanford and Smith 1972, SSSAJ 36:465");
  table.near("half-life of mineralisable nitrogen at 35 C, weeks", nitrogen::half_life_weeks(35, k),
             12.8, 0.05);
  table.about("N9", 'A', "Stanford, Carter and Smith 1974, SSSAP 38:99");
  table.near("pool over what two weeks at 35 C release", nitrogen::mineralisable(1, k), 9.77, 0.01);
  table.about("N10", 'B', "Campbell, Myers and Weier 1981: 0.031 and 0.058 a week");
  table.inside("mineralisation at 25 C over 35 C",
               nitrogen::temperature_factor(25) / nitrogen::temperature_factor(35), 0.40, 0.60);
}

}  // namespace aftercrop::published
