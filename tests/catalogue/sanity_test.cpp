#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/maturity.h"
#include "aftercrop/load/load.h"

// Whether the rows can be true: against each other, against the families of plants, against the
// weather of places.
using namespace aftercrop;
using catalogue::Catalogue;
using catalogue::Crop;
using catalogue::CropId;

namespace {

const Catalogue& rows() { return load::embedded_catalogue(); }

std::string genus(const Crop& crop) {
  const std::string& name = crop.botanical_name;
  const std::size_t from = name.starts_with("x ") ? 2 : 0;
  return name.substr(from, name.find(' ', from) - from);
}

}  // namespace

TEST_CASE("sanity: every figure that decides something names who says so") {
  int figures = 0;
  for (const Crop& crop : rows().crops) {
    CAPTURE(crop.id);
    for (const catalogue::FigureGroup& group : catalogue::figure_groups(crop)) {
      CAPTURE(std::string(group.name));
      const catalogue::Citation* said = catalogue::source_of(crop.sources, group.topic);
      REQUIRE(said != nullptr);
      CHECK_FALSE(said->text.empty());
      CHECK(std::find(catalogue::kGradeNames.begin(), catalogue::kGradeNames.end(), said->grade) !=
            catalogue::kGradeNames.end());
      figures += group.figures;
    }
  }
  CHECK(figures > 4000);
  for (const catalogue::Tally& one : catalogue::tally(rows())) {
    CAPTURE(one.table);
    CHECK(one.rows > 0);
    CHECK(one.without == 0);
  }
}

TEST_CASE("sanity: yield, nitrogen, days, cold and frost have a topic of their own, not the rest") {
  for (const Crop& crop : rows().crops) {
    CAPTURE(crop.id);
    std::set<std::string> topics;
    for (const catalogue::Citation& one : crop.sources) topics.insert(one.topic);
    for (const char* topic : {"nitrogen", "days"}) CHECK(topics.contains(topic));
    CHECK(topics.contains(crop.is_cover() ? "kill" : "frost"));
    if (crop.yield_unit != catalogue::YieldUnit::None) CHECK(topics.contains("yield"));
    if (crop.is_cover()) CHECK(topics.contains("biomass"));
  }
}

// Families of the genera: common botanical knowledge (Angiosperm Phylogeny Group), typed in
// without the catalogue; borages with the old Hydrophyllaceae, amaranths with the old
// Chenopodiaceae.
TEST_CASE("sanity: the botanical name of a crop belongs to its family") {
  const std::map<std::string, std::set<std::string>> families = {
      {"aizoaceae", {"Tetragonia"}},
      {"amaranthaceae", {"Amaranthus", "Beta", "Spinacia"}},
      {"amaryllidaceae", {"Allium"}},
      {"apiaceae",
       {"Anethum", "Anthriscus", "Apium", "Coriandrum", "Daucus", "Foeniculum", "Pastinaca",
        "Petroselinum"}},
      {"asparagaceae", {"Asparagus"}},
      {"asteraceae",
       {"Calendula", "Cichorium", "Cosmos", "Cynara", "Helianthus", "Lactuca", "Tagetes",
        "Tragopogon", "Zinnia"}},
      {"boraginaceae", {"Borago", "Phacelia"}},
      {"brassicaceae", {"Armoracia", "Brassica", "Eruca", "Lobularia", "Raphanus", "Sinapis"}},
      {"caprifoliaceae", {"Valerianella"}},
      {"convolvulaceae", {"Ipomoea"}},
      {"cucurbitaceae", {"Citrullus", "Cucumis", "Cucurbita"}},
      {"fabaceae",
       {"Arachis", "Crotalaria", "Glycine", "Lathyrus", "Lupinus", "Medicago", "Melilotus",
        "Phaseolus", "Pisum", "Trifolium", "Trigonella", "Vicia", "Vigna"}},
      {"lamiaceae", {"Mentha", "Ocimum", "Origanum", "Salvia", "Thymus"}},
      {"linaceae", {"Linum"}},
      {"malvaceae", {"Abelmoschus"}},
      {"montiaceae", {"Claytonia"}},
      {"poaceae",
       {"Avena", "Echinochloa", "Hordeum", "Lolium", "Pennisetum", "Secale", "Sorghum",
        "Triticosecale", "Triticum", "Zea"}},
      {"polygonaceae", {"Fagopyrum", "Rheum", "Rumex"}},
      {"rosaceae", {"Fragaria"}},
      {"solanaceae", {"Capsicum", "Physalis", "Solanum"}},
      {"tropaeolaceae", {"Tropaeolum"}}};
  for (const Crop& crop : rows().crops) {
    CAPTURE(crop.id);
    CAPTURE(genus(crop));
    const auto family = families.find(rows().family(crop.family).id);
    REQUIRE(family != families.end());
    CHECK(family->second.contains(genus(crop)));
  }
  // complete: every family has crops, every family is known here
  CHECK(families.size() == rows().families.size());
  for (std::size_t i = 0; i < rows().families.size(); ++i) {
    CAPTURE(rows().families[i].id);
    CHECK(std::any_of(rows().crops.begin(), rows().crops.end(),
                      [&](const Crop& crop) { return crop.family == catalogue::FamilyId(i); }));
  }
}

// The need of a crop is its catalogue days times what a day gives on average at five places of the
// northern United States; at three of them the days must come out again, to three tenths.
TEST_CASE(
    "sanity: days to harvest come out at three sites that the catalogue's days are told for") {
  for (const char* place : {"burlington-vt", "madison", "boston"}) {
    const catalogue::ClimateNormals* normals = rows().find_climate(place);
    REQUIRE(normals != nullptr);
    climate::SiteClimate site(
        *normals, garden::Shelter::Open,
        {*calendar::parse_week("2026-W40"), *calendar::parse_week("2029-W01")},
        rows().coefficients.site);
    site.prepare(rows().crops);
    for (const Crop& crop : rows().crops) {
      if (crop.is_cover() || crop.perennial() || crop.overwinters) continue;
      if (crop.base_c > 12.0 && crop.days_max > 100.0) continue;  // not grown in the open there
      CAPTURE(std::string(place));
      CAPTURE(crop.id);
      const bool warm = !climate::cool_crop(crop.base_c);
      const double days = climate::days_in_bed(crop, rows().coefficients.site.maturity);
      const auto start = *calendar::Date::from_ymd(2027, warm ? 6 : 5, 1);
      const auto found =
          climate::stretch(site, start,
                           days * climate::catalogue_degree_days(
                                      crop.base_c, rows().coefficients.site.catalogue_days),
                           days, climate::thermal_time(crop));
      REQUIRE(found.has_value());
      CHECK(found->days >= 0.8 * days);
      CHECK(found->days <= 1.3 * days);
    }
  }
}

// Carbon is 42 % of dry matter (as in the covers' sources): published C:N by stage.
TEST_CASE("sanity: C:N and percent nitrogen of covers say the same") {
  struct Row {
    const char* id;
    std::size_t stage;  // vegetative, flowering, mature
    double ratio;
    const char* source;
  };
  const Row table[] = {
      {"buckwheat", 1, 34.0, "Creamer and Baldwin, NC State Extension"},
      {"rye", 1, 37.0, "USDA NRCS 2011, Carbon to nitrogen ratios in cropping systems, Table 1"},
      {"rye", 2, 82.0, "USDA NRCS 2011, Table 1"},
      {"hairy-vetch", 1, 11.0, "USDA NRCS 2011, Table 1"},
  };
  for (const Row& row : table) {
    CAPTURE(std::string(row.id));
    CAPTURE(std::string(row.source));
    const auto id = rows().find_crop(row.id);
    REQUIRE(id.has_value());
    CHECK(42.0 / rows().crop(*id).cover->n_pct[row.stage] ==
          doctest::Approx(row.ratio).epsilon(0.12));
  }
}

TEST_CASE("sanity: a cover's windows suit its hardiness") {
  for (const Crop& crop : rows().crops) {
    if (!crop.cover) continue;
    CAPTURE(crop.id);
    const auto& endings = crop.cover->endings;
    const bool winterkilled =
        std::find(endings.begin(), endings.end(), catalogue::Ending::Winterkilled) != endings.end();
    for (const catalogue::CoverWindow& window : crop.cover->windows) {
      using catalogue::FrostAnchor;
      const bool autumn = window.to_anchor == FrostAnchor::FirstFrost;
      // Sown after the first frost: it has to live through the winter.
      if (autumn && window.to_weeks > 0) CHECK(crop.kill_c <= -12.0);
      // Killed by the first frosts: sown so that its stand is there before them.
      if (autumn && crop.kill_c >= -1.0) CHECK(-window.to_weeks >= crop.cover->weeks_to_stand);
      // Tender: not before the last frost.
      if (window.from_anchor == FrostAnchor::LastFrost && crop.kill_c >= -1.0) {
        CHECK(window.from_weeks >= 0);
      }
    }
    // What no usual winter kills is not said to be killed by it.
    if (crop.kill_c <= -20.0) CHECK_FALSE(winterkilled);
  }
}

TEST_CASE("sanity: partners and hosts name crops, and every disease has a host that is grown") {
  for (const catalogue::PartnerRow& row : rows().partners) {
    CAPTURE(row.id);
    CHECK_FALSE(row.partner_crops.empty());
    for (const CropId id : row.partner_crops) CHECK(id.known());
    for (const CropId id : row.partner_for) CHECK(id.known());
  }
  for (const catalogue::Pathogen& row : rows().pathogens) {
    CAPTURE(row.id);
    CHECK(std::any_of(row.hosts.begin(), row.hosts.end(), [](const catalogue::Host& host) {
      return !rows().crop(host.crop).is_cover();
    }));
  }
}

// What a hundred feet of row give, lb, low and high, in rows so far apart (cm): Univ. of Kentucky
// ID-128 and the lists of Virginia and Kansas (from memory), as home gardeners are told. Row lists
// count one row beside an aisle: field lists lie up to three times below, beds above.
TEST_CASE("sanity: typical yields lie between the published low and high, row lists read as beds") {
  struct Row {
    const char* id;
    double low_lb;
    double high_lb;
    double row_cm;
  };
  const Row table[] = {
      {"tomato", 110, 400, 120},       {"bush-bean", 54, 240, 75}, {"carrot", 73, 150, 45},
      {"cabbage-early", 96, 214, 70},  {"cucumber", 71, 218, 120}, {"squash-summer", 89, 273, 110},
      {"squash-winter", 56, 200, 180}, {"potato", 73, 171, 90},    {"sweet-corn", 76, 155, 90},
      {"turnip", 50, 111, 45},         {"spinach", 25, 74, 40},    {"pepper", 39, 99, 75},
      {"onion-bulb", 60, 150, 45},     {"broccoli", 55, 170, 75}};
  for (const Row& row : table) {
    CAPTURE(std::string(row.id));
    const auto id = rows().find_crop(row.id);
    REQUIRE(id.has_value());
    const double per_lb = 0.45359 / (30.48 * row.row_cm / 100.0);
    const Crop& crop = rows().crop(*id);
    CHECK(crop.yield_per_m2.typical >= 0.8 * per_lb * row.low_lb);
    CHECK(crop.yield_per_m2.typical <= 1.5 * per_lb * row.high_lb);
  }
}

TEST_CASE("catalogue: every coefficient of ledgers and sites names its source") {
  for (const char* name : {"/crops/ledger.yaml", "/crops/site.yaml"}) {
    std::ifstream in(std::string(AFTERCROP_ROOT) + name);
    std::stringstream all;
    all << in.rdbuf();
    const std::string text = all.str();
    int coefficients = 0;
    for (auto at = text.find("{value:"); at != std::string::npos;
         at = text.find("{value:", at + 1)) {
      const std::string row = text.substr(at, text.find('}', at) - at);
      CAPTURE(row);
      CHECK(row.find("source: ") != std::string::npos);
      ++coefficients;
    }
    CHECK(coefficients > 70);
  }
}
