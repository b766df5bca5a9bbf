#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "aftercrop/disease/load.h"
#include "aftercrop/load/load.h"

// Worked checks of the disease ledger: the embedded rows, moved by the ledger's own maps, against
// what trials and extension services printed. The source stands beside each check.
//
//   D3   clubroot after 17 years               D16  not checked: a curve of yield the ledger lacks
//   D4   potato cyst nematode year by year     D18  clubroot seen, years until kale
//   D5   the same, slowest decline             D19  limed
//   D6   Verticillium after 7 years            D20  potato one year in six, eight, nine
//   D7   waiting for strawberries              D21  brassicas one year in four, eight, nine
//   D8   broccoli twice, D43 against waiting   D23  spinach wilt
//   D9   Aphanomyces                           D24  sticky nightshade
//   D10  white mould                           D27  mustard, average execution (see there)
//   D15  tomato four years running             D51  brassica one in four for decades
//   D39  white rot after ten years             D52  potato one in six for thirty years
//   D53  pea every year                        D55  clubbed roots dug in or carried off
//
// Misses: none beyond the stated tolerances. D8 is met at 4 % (0.0625 of the load stays, 0.06
// printed), because the row's efficacy is rounded to 0.75. D27's example knows a delay of an hour;
// a plan does not, so the ledger's average of 0.6 stands for all that hands do.
using namespace aftercrop;

namespace {

constexpr double kWeeksPerYear = 365.25 / 7.0;
constexpr double kSeason = 20.0;

const catalogue::Catalogue& rows() { return load::embedded_catalogue(); }

const catalogue::Pathogen& pathogen(const char* id) {
  const auto found = rows().find_pathogen(id);
  REQUIRE_MESSAGE(found, id);
  return rows().pathogen(*found);
}

catalogue::CropId crop(const char* id) {
  const auto found = rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return *found;
}

disease::LoadMap rest(double half_life, double years) {
  return disease::decay(years * kWeeksPerYear, half_life);
}
disease::LoadMap rest(const catalogue::Pathogen& of, double years) {
  return rest(of.half_life_years.typical, years);
}

/// A full season of a host as the row describes it, residues as the ending leaves them.
disease::LoadMap season(const catalogue::Pathogen& of, const char* host,
                        catalogue::Ending ending = catalogue::Ending::Incorporated) {
  const catalogue::Host* row = of.host(crop(host));
  REQUIRE_MESSAGE(row != nullptr, host);
  return disease::host_weeks(kSeason, kSeason, disease::season_doublings(of, *row, ending),
                             of.ceiling);
}

/// The row of what a plant does to a pathogen.
const catalogue::Biofumigation& effect(const catalogue::Pathogen& of, const char* plant) {
  for (const auto& one : of.biofumigation) {
    for (const auto id : one.plants) {
      if (id == crop(plant)) return one;
    }
  }
  FAIL("no such effect: ", std::string(plant));
  return of.biofumigation.front();
}

/// Doublings of a low load over one host season and `years` without.
double cycle_doublings(const char* id, const char* host, double years) {
  const catalogue::Pathogen& row = pathogen(id);
  return std::log2(disease::then(season(row, host), rest(row, years)).a);
}

}  // namespace

TEST_CASE("disease check D3: clubroot fades below detection in 17 years") {
  // Wallenhammar 1996, Plant Pathol. 45:710 (abstract): half-life 3.6 years, undetectable after
  // 17.3: 2^-4.81 = 0.0358.
  const double left = rest(pathogen("clubroot"), 17.3)(1.0);
  CHECK(left >= 0.03);
  CHECK(left <= 0.045);
}

TEST_CASE("disease check D4: potato cyst nematode loses 30 % a year") {
  // 100 eggs/g: the 30 % is from memory; AHDB 2020: one year in eight is the least.
  const catalogue::Pathogen& row = pathogen("potato-cyst-nematode");
  const double eggs[] = {70, 49, 34.3, 24.0, 16.8, 11.8, 8.2, 5.8};
  for (int year = 1; year <= 8; ++year) {
    CAPTURE(year);
    CHECK(rest(row, year)(100) == doctest::Approx(eggs[year - 1]).epsilon(0.01));
  }
  CHECK(disease::years_to(100, 5, row.half_life_years.typical) ==
        doctest::Approx(8.40).epsilon(0.005));
}

TEST_CASE("disease check D5: the same nematode at its slowest") {
  // Scholte and Vos 2000, Ann. appl. Biol. 137:153: 36 % hatched in two years under flax, barley.
  CHECK(rest(pathogen("potato-cyst-nematode").half_life_years.high, 2)(1.0) ==
        doctest::Approx(0.64).epsilon(0.01));
}

TEST_CASE("disease check D6: Verticillium after seven years of non-hosts") {
  // Negev soils (Ben-Yephet and Szmulewich 1985): 4 % left; the row's shortest half-life.
  CHECK(disease::years_to(1.0, 0.04, pathogen("verticillium-wilt").half_life_years.low) ==
        doctest::Approx(7.0).epsilon(0.01));
}

TEST_CASE("disease check D7: waiting for strawberries on Verticillium") {
  // UC Santa Cruz: 2 a gram is enough in strawberry; from 30 a gram log2 15 = 3.907 half-lives.
  const auto& row = pathogen("verticillium-wilt");
  CHECK(disease::years_to(30, 2, row.half_life_years.typical) ==
        doctest::Approx(7.81).epsilon(0.01));
  CHECK(disease::years_to(30, 2, row.half_life_years.low) == doctest::Approx(5.89).epsilon(0.01));
}

TEST_CASE("disease check D8, D43: broccoli twice does what eight years of waiting do") {
  // Xiao et al. 1998, Phytopathology 88:1046: -94 % after two crops of broccoli residue, 30 a gram
  // to 1.8. Subbarao et al. 2007: strawberries after broccoli wilt less than after lettuce.
  const auto& row = pathogen("verticillium-wilt");
  const auto once = disease::kill(effect(row, "broccoli").efficacy.typical, 1.0);
  const double left = disease::then(once, once)(30);
  CHECK(left < 2.0);
  CHECK(left == doctest::Approx(1.8).epsilon(0.05));
  const double field = 30 / row.threshold;
  const auto lettuce = disease::then(season(row, "lettuce-head"), rest(row, 0.3));
  CHECK(disease::then(once, once)(field) < disease::then(lettuce, lettuce)(field));
  CHECK(effect(row, "broccoli").efficacy.low > 0.0);
  CHECK(effect(row, "mustard-brown").efficacy.low == 0.0);  // Hartz et al. 2005: none in 6 trials
}

TEST_CASE("disease check D9: Aphanomyces halves each year") {
  // Pfender and Hagedorn 1983, Phytopathology 73:1109.
  const auto& row = pathogen("aphanomyces-pea");
  CHECK(rest(row, 4)(100) == doctest::Approx(6.25));
  CHECK(rest(row, 6)(100) == doctest::Approx(1.5625));
  CHECK(disease::years_to(8, 1, row.half_life_years.typical) == doctest::Approx(3.0));
  CHECK(disease::years_to(8, row.advise_at, row.half_life_years.typical) == doctest::Approx(5.0));
}

TEST_CASE("disease check D10: sclerotia of white mould on the surface") {
  // Central New York, Plant Dis. 2024: 15 % viable after 769 days: half-life 0.769, row 0.8.
  CHECK(disease::years_to(1.0, 0.15, pathogen("white-mould").half_life_years.typical) ==
        doctest::Approx(769 / 365.25).epsilon(0.05));
}

TEST_CASE("disease check D15: tomato four years running") {
  // MacNab and Zitter, Cornell (2020): defoliation by early blight 3, 30, 74, 70 % in years 1 to 4.
  // Loads at planting 0.050, 0.271, 1.314, 4.242: fine, advised against, past the threshold twice.
  const auto& row = pathogen("early-blight");
  const auto year =
      disease::then(season(row, "tomato"), disease::decay(30, row.half_life_years.typical));
  const double expected[] = {0.050, 0.271, 1.314, 4.242};
  double load = rows().coefficients.disease.background_load;
  for (const double at_planting : expected) {
    CHECK(std::abs(load - at_planting) < 0.0006);
    load = year(load);
  }
  CHECK(expected[0] < row.advise_at);
  CHECK(expected[2] > rows().coefficients.disease.refuse_at);
}

TEST_CASE("disease check D18, D23: years until a crop that saw its disease may come back") {
  // University of Connecticut: 7 years off for clubroot lie between refusal and advice. Spinach
  // wilt: 4-6 years for fresh leaves (Pacific Northwest Handbook), 10-15 for seed (du Toit).
  const auto& k = rows().coefficients.disease;
  const auto& clubroot = pathogen("clubroot");
  const double seen = k.sighting_some;
  CHECK(rest(clubroot, 3.33)(seen) == doctest::Approx(1.053).epsilon(0.001));
  CHECK(rest(clubroot, 4.33)(seen) == doctest::Approx(0.869).epsilon(0.001));
  const double half_life = clubroot.half_life_years.typical;
  CHECK(disease::years_to(seen, k.refuse_at, half_life) < clubroot.break_years.typical);
  CHECK(disease::years_to(seen, clubroot.advise_at, half_life) > clubroot.break_years.typical);
  CHECK(disease::years_to(seen, clubroot.advise_at, half_life) == doctest::Approx(10.8));

  const auto& spinach = pathogen("fusarium-wilt-spinach");
  CHECK(rest(spinach, 6)(seen) == doctest::Approx(0.707).epsilon(0.001));
  CHECK(rest(spinach, 10)(seen) == doctest::Approx(0.354).epsilon(0.002));
  CHECK(disease::years_to(seen, k.refuse_at, spinach.half_life_years.typical) <= 4.0 + 1e-9);
  CHECK(disease::years_to(seen, spinach.advise_at, spinach.half_life_years.typical) ==
        doctest::Approx(12.0));
}

TEST_CASE("disease check D19: lime blocks clubroot from pH 7.1 up, and does little at 6.9") {
  // Heinrich and Stone, Oregon State University 2013-2015. Form and 0.15 are our choice.
  const auto& row = pathogen("clubroot");
  const double seen = rows().coefficients.disease.sighting_some;
  CHECK(seen * disease::ph_factor(row, 7.2) == doctest::Approx(0.300));
  CHECK(seen * disease::ph_factor(row, 6.9) == doctest::Approx(1.029).epsilon(0.001));
}

TEST_CASE("disease check D20, D21: how seldom a host may come round") {
  // Trudgill et al.: potato once in 5 or 6 years is too often; AHDB 2020: one in eight the least.
  CHECK(cycle_doublings("potato-cyst-nematode", "potato", 5) ==
        doctest::Approx(1.43).epsilon(0.01));
  CHECK(cycle_doublings("potato-cyst-nematode", "potato", 7) ==
        doctest::Approx(0.40).epsilon(0.03));
  CHECK(cycle_doublings("potato-cyst-nematode", "potato", 8) < 0.0);
  // Jonsson et al. 2016, Eur. J. Plant Pathol. 145:573: brassicas one in four climb; one in six
  // were found at one site of five only, so the ledger is the stricter.
  CHECK(cycle_doublings("clubroot", "rape-cover", 3) == doctest::Approx(1.17).epsilon(0.01));
  CHECK(cycle_doublings("clubroot", "rape-cover", 7) == doctest::Approx(0.06).epsilon(0.1));
  CHECK(cycle_doublings("clubroot", "rape-cover", 8) == doctest::Approx(-0.22).epsilon(0.02));
}

TEST_CASE("disease check D24: sticky nightshade saves four years of waiting") {
  // AHDB 2020: 75-80 % of potato cyst nematode gone after one stand. 40 eggs/g, 5 are harmless.
  const double half_life = pathogen("potato-cyst-nematode").half_life_years.typical;
  const double after = disease::kill(0.75, 1.0)(40);
  CHECK(after == doctest::Approx(10));
  CHECK(disease::years_to(after, 5, half_life) == doctest::Approx(1.94).epsilon(0.01));
  CHECK(disease::years_to(40, 5, half_life) == doctest::Approx(5.83).epsilon(0.01));
}

TEST_CASE("disease check D27: mustard at early flower, four kilograms, an average hand") {
  // Cornell, Biofumigation for managing Phytophthora blight: chop at first flower, dig in within 20
  // minutes. 4 of 5 kg/m2 and the average hand 0.6: 0.48. Known an hour late and unsealed, 0.24.
  const auto& k = rows().coefficients.disease;
  disease::Fumigation how;
  how.flower = 1.1;
  how.soil_c = 12;
  const auto quality = disease::fumigation_quality(rows().crop(crop("mustard-brown")), how, k);
  CHECK(quality.q == doctest::Approx(0.48));
  CHECK(quality.q >= k.effective_quality);
  CHECK(0.5 * quality.q < k.effective_quality);
}

TEST_CASE("disease check D39: white rot outlasts ten years") {
  // UC IPM: more than 20 years; 10-20 sclerotia/kg infect nearly all plants. 20 x 2^-0.5 = 14.1.
  const auto& row = pathogen("white-rot-onion");
  CHECK(rest(row, 10)(20 / row.threshold) == doctest::Approx(14.1).epsilon(0.01));
  CHECK(rest(row, 20)(20 / row.threshold) > rows().coefficients.disease.refuse_at);
}

TEST_CASE("disease check D51, D52: decades of too short a rotation") {
  // Jonsson et al. 2016: rapeseed one in four, high after 9 to 12 rounds. Trudgill et al.: potato
  // every sixth year for thirty years.
  const auto& k = rows().coefficients.disease;
  const auto climb = [&](const char* id, const char* host, int off, int rounds) {
    const auto& row = pathogen(id);
    const auto round = disease::then(season(row, host), rest(row, off));
    double load = k.background_load;
    for (int i = 0; i < rounds; ++i) load = round(load);
    return load;
  };
  CHECK(climb("clubroot", "rape-cover", 3, 9) > k.refuse_at);
  CHECK(climb("clubroot", "rape-cover", 8, 9) < pathogen("clubroot").advise_at);
  CHECK(climb("potato-cyst-nematode", "potato", 5, 5) > k.refuse_at);
  CHECK(climb("potato-cyst-nematode", "potato", 8, 5) < k.background_load);
}

TEST_CASE("disease check D53: pea every year on soil with Aphanomyces fails in its second year") {
  // Persson et al. 1999, Plant Dis. 83:1108: failed in year 2, nothing left in year 4.
  const auto& row = pathogen("aphanomyces-pea");
  const auto& k = rows().coefficients.disease;
  const auto year = disease::then(season(row, "pea-shell"), rest(row, 0.7));
  const double first = k.sighting_trace;
  const double second = year(first);
  CHECK(first < k.refuse_at);
  CHECK(second > k.refuse_at);
  CHECK(year(year(second)) > second);
}

TEST_CASE("disease check D55: clubbed roots dug in or carried off") {
  // Murakami et al. 2000, Soil Sci. Plant Nutr.: load up where dug in, unchanged where carried off.
  const auto& row = pathogen("clubroot");
  const double dug_in = season(row, "cabbage-napa")(0.5);
  const double carried = season(row, "cabbage-napa", catalogue::Ending::HarvestedPulled)(0.5);
  CHECK(dug_in == doctest::Approx(1.829).epsilon(0.001));
  CHECK(carried == doctest::Approx(0.572).epsilon(0.001));
}
