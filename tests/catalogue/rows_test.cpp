#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <vector>

#include "aftercrop/load/load.h"

// What must hold of every row, whatever its figures are.
using namespace aftercrop::catalogue;

namespace {

const Catalogue& rows() { return aftercrop::load::embedded_catalogue(); }

void check_sources(const std::vector<Citation>& sources) {
  const std::set<std::string> grades = {"published", "common practice", "from memory", "derived",
                                        "our choice"};
  CHECK_FALSE(sources.empty());
  for (const Citation& one : sources) {
    CAPTURE(one.topic);
    CHECK_FALSE(one.topic.empty());
    CHECK_FALSE(one.text.empty());
    CHECK(grades.count(one.grade) == 1);
  }
}

bool cites(const Crop& crop, const std::string& topic) {
  return std::any_of(crop.sources.begin(), crop.sources.end(),
                     [&](const Citation& one) { return one.topic == topic; });
}

template <class Row>
void check_ids_differ(const std::vector<Row>& all) {
  std::set<std::string> ids;
  for (const Row& row : all) {
    CAPTURE(row.id);
    CHECK(ids.insert(row.id).second);
    CHECK_FALSE(row.id.empty());
  }
}

}  // namespace

TEST_CASE("rows: ids differ within a table") {
  check_ids_differ(rows().crops);
  check_ids_differ(rows().families);
  check_ids_differ(rows().groups);
  check_ids_differ(rows().pathogens);
  check_ids_differ(rows().climates);
  check_ids_differ(rows().soils);
  check_ids_differ(rows().amendments);
  check_ids_differ(rows().residues);
  check_ids_differ(rows().partners);
  check_ids_differ(rows().cautions);
}

TEST_CASE("rows: every row has a source with a grade") {
  for (const Crop& row : rows().crops) {
    CAPTURE(row.id);
    check_sources(row.sources);
    CHECK(cites(row, "nitrogen"));
    CHECK(cites(row, "days"));
    CHECK((cites(row, "frost") || cites(row, "kill")));
    CHECK((row.yield_unit == YieldUnit::None || cites(row, "yield")));
    CHECK((!row.legume || cites(row, "fixation")));
  }
  for (const BreakGroup& row : rows().groups) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const HostReturn& row : rows().host_returns) {
    CAPTURE(row.reason);
    check_sources(row.sources);
  }
  for (const ClimateNormals& row : rows().climates) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const Soil& row : rows().soils) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const Amendment& row : rows().amendments) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const ResidueClass& row : rows().residues) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const PartnerRow& row : rows().partners) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const Caution& row : rows().cautions) {
    CAPTURE(row.id);
    check_sources(row.sources);
  }
  for (const Pathogen& row : rows().pathogens) {
    CAPTURE(row.id);
    check_sources(row.sources);
    for (const Biofumigation& effect : row.biofumigation) check_sources(effect.sources);
  }
}

TEST_CASE("rows: the bibliography names nothing twice and says something of everything") {
  for (std::size_t i = 0; i < rows().bibliography.size(); ++i) {
    const Citation& one = rows().bibliography[i];
    CAPTURE(one.topic);
    CHECK(one.text.size() >= 8);
    CHECK((i == 0 || rows().bibliography[i - 1].topic < one.topic));
  }
}

TEST_CASE("rows: figures of a crop agree with each other") {
  for (const Crop& row : rows().crops) {
    CAPTURE(row.id);
    CHECK(row.family.known());
    CHECK(row.group.known());
    CHECK(rows().group(row.group).family == row.family);
    CHECK(row.days_min <= row.days_max);
    CHECK(row.base_c < row.cap_c);
    CHECK(row.growth_min_c < row.growth_max_c);
    CHECK(row.kill_c <= 2);
    CHECK((row.seed_class == SeedClass::Vegetative) == (row.seed_mass_mg == 0.0));
    CHECK((row.yield_unit == YieldUnit::None) == (row.yield_per_m2.typical == 0.0));
    CHECK((row.is_cover() || row.in_row_cm > 0.0));
    CHECK((row.start != Start::Transplant || row.plug_weeks.low >= 2));
    if (row.mixture.empty()) {
      CHECK(row.legume == (rows().family(row.family).id == "fabaceae"));
      CHECK((row.feeder == Feeder::Legume) == row.legume);
    }
    CHECK((row.kind == "cover") == row.is_cover());
    CHECK((row.root_depth_cm > 45 || row.root_depth_cm >= 12));
  }
}

TEST_CASE("rows: nitrogen that leaves with the harvest is no more than the crop took up") {
  for (const Crop& row : rows().crops) {
    CAPTURE(row.id);
    const NitrogenFigures& figures = row.nitrogen;
    CHECK(figures.yield_t_ha * figures.harvest_kg_per_t <= figures.uptake_kg_ha);
    CHECK(figures.uptake_kg_ha <= 400);
    CHECK((figures.depth_cm == 15 || figures.depth_cm == 30 || figures.depth_cm == 60 ||
           figures.depth_cm == 90));
    CHECK(figures.fixation_share <= figures.fixation_ceiling);
  }
}

TEST_CASE("rows: a cover's figures are possible") {
  for (const Crop& row : rows().crops) {
    if (!row.cover) continue;
    CAPTURE(row.id);
    const CoverFigures& cover = *row.cover;
    CHECK_FALSE(cover.windows.empty());
    CHECK_FALSE(cover.endings.empty());
    CHECK(cover.biomass_t_ha.low < cover.biomass_t_ha.high);
    CHECK(cover.seed_g_m2 >= 0.5);
    CHECK((cover.fumigant == Fumigant::None) == (cover.fumigant_species_factor == 0.0));
    // Carbon is taken as 42 % of dry matter: green tops lie between C:N 8 and 20, ripe straw of
    // cereals goes to 82 (0.51 % N).
    CHECK(42.0 / cover.n_pct[0] >= 8.0);
    CHECK(42.0 / cover.n_pct[0] <= 20.0);
    CHECK(42.0 / cover.n_pct[2] <= 83.0);
    // What the row takes up is what stands at flowering: t/ha x % x 10, in whole kilograms.
    CHECK(row.nitrogen.uptake_kg_ha ==
          doctest::Approx(cover.biomass_t_ha.typical * cover.n_pct[1] * 10.0).epsilon(0.02));
    const bool frost = std::find(cover.endings.begin(), cover.endings.end(),
                                 Ending::Winterkilled) != cover.endings.end();
    CHECK((!frost || row.kill_c >= -15));
    CHECK((row.residue.known() || cover.wait_weeks[0] > 0));
  }
}

TEST_CASE("rows: every reference of a pathogen resolves") {
  std::set<std::string> biofumigants;
  for (const Pathogen& row : rows().pathogens) {
    CAPTURE(row.id);
    CHECK_FALSE(row.hosts.empty());
    CHECK(std::is_sorted(row.hosts.begin(), row.hosts.end(),
                         [](const Host& a, const Host& b) { return a.crop < b.crop; }));
    CHECK(row.half_life_years.low <= row.half_life_years.typical);
    CHECK(row.half_life_years.typical <= row.half_life_years.high);
    CHECK(row.threshold > 0.0);
    CHECK(row.advise_at < 1.0);
    for (const Host& host : row.hosts) {
      CHECK(host.crop.known());
      CHECK(host.gain > 0.0);
      CHECK(host.tolerance > 0.0);
    }
    for (const Biofumigation& effect : row.biofumigation) {
      CHECK_FALSE(effect.plants.empty());
      for (const CropId plant : effect.plants) biofumigants.insert(rows().crop(plant).id);
    }
  }
  CHECK(biofumigants.count("broccoli") == 1);
  CHECK(biofumigants.count("mustard-brown") == 1);
  for (const BreakGroup& group : rows().groups) {
    if (group.cover_binds_if_seen.empty()) continue;
    CHECK(rows().find_pathogen(group.cover_binds_if_seen));
  }
}

TEST_CASE("rows: gain is break over half-life, between 1 and 5, where a pathogen has a break") {
  // Rounded in the table to one figure after the point; corn smut, pea wilt and the yellows of
  // cabbage are rounded down, black dot lasts longer than its break.
  for (const Pathogen& row : rows().pathogens) {
    if (row.break_years.typical == 0.0) continue;
    CAPTURE(row.id);
    const double gain = std::clamp(row.break_years.typical / row.half_life_years.typical, 1.0, 5.0);
    CHECK(row.gain == doctest::Approx(gain).epsilon(0.035));
  }
}

TEST_CASE("rows: cautions and residue classes are used") {
  std::set<std::string> cautions;
  std::set<std::size_t> residues;
  for (const Crop& row : rows().crops) {
    cautions.insert(row.cautions.begin(), row.cautions.end());
    if (row.residue.known()) residues.insert(row.residue.place());
  }
  for (const Amendment& row : rows().amendments) {
    cautions.insert(row.cautions.begin(), row.cautions.end());
  }
  for (const Caution& row : rows().cautions) {
    CAPTURE(row.id);
    CHECK(cautions.count(row.id) == 1);
    CHECK(row.text.size() > 40);
  }
  CHECK(cautions.size() == rows().cautions.size());
  CHECK(residues.size() == rows().residues.size());
}

TEST_CASE("rows: climates are of this world") {
  for (const ClimateNormals& row : rows().climates) {
    CAPTURE(row.id);
    for (std::size_t month = 0; month < 12; ++month) {
      CHECK(row.tmin_c[month] < row.tmax_c[month]);
      CHECK(row.rain_mm[month] >= 0.0);
      CHECK(row.sd_c[month] >= 0.3);
    }
    CHECK(row.last_frost.has_value() == row.first_frost.has_value());
    CHECK(row.last_frost.has_value() == (row.frost_years >= 0.5));
    // The warm half of the year lies in the months of its hemisphere.
    const double half_year = row.tmax_c[5] + row.tmax_c[6] - row.tmax_c[11] - row.tmax_c[0];
    CHECK((std::abs(row.latitude) < 25.0 || (half_year > 0.0) == (row.latitude > 0.0)));
  }
}

TEST_CASE("rows: coefficients lie inside their spans and have a source") {
  const NitrogenCoefficients& nitrogen = rows().coefficients.nitrogen;
  const DiseaseCoefficients& disease = rows().coefficients.disease;
  const std::array<Coefficient, 9> some = {
      nitrogen.supply_per_om, nitrogen.gross_share,  nitrogen.tie_up_per_dm,
      nitrogen.rate_fast,     nitrogen.rate_slow,    nitrogen.deposition,
      nitrogen.opening_slow,  disease.sighting_some, disease.planned_quality};
  for (const Coefficient& one : some) {
    CAPTURE(one.source);
    CHECK(one.value > 0.0);
    CHECK(one.low <= one.value);
    CHECK(one.value <= one.high);
    CHECK_FALSE(one.source.empty());
  }
  // Break-even of the release line at 1.5 % N: 13.125 = 0.875 x 1.5 x 10.
  CHECK(nitrogen.tie_up_per_dm.value == doctest::Approx(nitrogen.gross_share.value * 1.5 * 10.0));
}
