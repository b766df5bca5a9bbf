#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "aftercrop/catalogue/provenance.h"
#include "load/catalogue_files.h"
#include "load/packed_tree.h"
#include "support/reading.h"

using namespace aftercrop;
using catalogue::Catalogue;
using catalogue::Crop;

namespace {

struct Loaded {
  std::optional<Catalogue> rows;
  diagnostic::Diagnostics said;

  [[nodiscard]] std::string lines() const {
    std::string all;
    for (const auto& one : said.all()) all += diagnostic::render_concise(one) + "\n";
    return all;
  }
};

Loaded over_base(const std::string& text) {
  Loaded loaded;
  loaded.rows = load::load_catalogue(load::embedded_catalogue(), "my.yaml",
                                     support::reader({{"my.yaml", text}}), loaded.said);
  return loaded;
}

const Crop& crop(const Catalogue& rows, const char* id) {
  const auto found = rows.find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return rows.crop(*found);
}

/// All that is cited for the figures of a topic.
std::string said_of(const Crop& crop, const char* topic) {
  const catalogue::Citation* first = catalogue::source_of(crop.sources, topic);
  if (first == nullptr) return "";
  std::string text;
  for (const catalogue::Citation& one : crop.sources) {
    if (one.topic == first->topic) text += (text.empty() ? "" : "; ") + one.text;
  }
  return text;
}

/// The same rows with the same citations: nothing was lost between text and program.
template <class Row>
void check_same_sources(const std::vector<Row>& read, const std::vector<Row>& embedded) {
  REQUIRE(read.size() == embedded.size());
  for (const Row& row : read) {
    CAPTURE(row.id);
    const auto same = std::find_if(embedded.begin(), embedded.end(),
                                   [&](const Row& other) { return other.id == row.id; });
    REQUIRE(same != embedded.end());
    CHECK(same->sources == row.sources);
  }
}

std::unique_ptr<load::Node> parse(const std::string& name, const std::string& text) {
  auto file = std::make_shared<diagnostic::SourceFile>();
  file->name = name;
  file->text = text;
  diagnostic::Diagnostics said;
  auto tree = load::parse_yaml(file, said);
  REQUIRE_FALSE(said.has_errors());
  return tree;
}

}  // namespace

TEST_CASE("catalogue files: all of crops/ read together without a finding") {
  std::vector<std::unique_ptr<load::Node>> trees;
  std::vector<const load::Node*> pointers;
  const auto folder = std::filesystem::path(AFTERCROP_ROOT) / "crops";
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  for (const auto& path : paths) {
    std::ifstream in(path, std::ios::binary);
    trees.push_back(parse(path.string(), {std::istreambuf_iterator<char>(in), {}}));
    pointers.push_back(trees.back().get());
  }
  Catalogue rows;
  diagnostic::Diagnostics said;
  load::read_catalogue(pointers, false, rows, said);
  for (const auto& one : said.all()) FAIL_CHECK(diagnostic::render_concise(one));
  const Catalogue& embedded = load::embedded_catalogue();
  check_same_sources(rows.crops, embedded.crops);
  check_same_sources(rows.pathogens, embedded.pathogens);
  check_same_sources(rows.climates, embedded.climates);
  check_same_sources(rows.cautions, embedded.cautions);
  check_same_sources(rows.residues, embedded.residues);
  check_same_sources(rows.amendments, embedded.amendments);
  check_same_sources(rows.soils, embedded.soils);
  check_same_sources(rows.partners, embedded.partners);
  CHECK(rows.host_returns.size() == embedded.host_returns.size());
}

TEST_CASE("catalogue files: a packed tree unpacks to the same tree") {
  const auto tree = parse("a.yaml", "a: {b: [1, \"two\", ~], c: ''}\nd: |\n  long\n  text\n");
  const std::string bytes = load::pack(*tree);
  const std::vector<unsigned char> copy(bytes.begin(), bytes.end());
  const load::Node again = load::unpack(copy, tree->source.file);
  CHECK(load::pack(again) == bytes);
  const load::Node* list = again.find("a")->find("b");
  REQUIRE(list != nullptr);
  REQUIRE(list->items.size() == 3);
  CHECK(list->items[1].text == "two");
  CHECK(list->items[1].quoted);
  CHECK(list->items[1].source.line == 1);
  CHECK(list->items[1].source.column == 12);
  CHECK(list->items[2].is_null());
  CHECK(again.find("d")->text == "long\ntext\n");
}

TEST_CASE("catalogue files: a known id changes single keys and keeps the rest") {
  const Loaded loaded = over_base(
      "crops:\n"
      "  - id: tomato\n"
      "    yield: {per_m2: [3, 5, 9]}\n"
      "    hardiness: {kill_c: -1}\n"
      "    source: own records 2020 to 2026\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const Crop& changed = crop(*loaded.rows, "tomato");
  const Crop& before = crop(load::embedded_catalogue(), "tomato");
  CHECK(changed.yield_per_m2 == catalogue::Range{3, 5, 9});
  CHECK(changed.yield_unit == before.yield_unit);
  CHECK(changed.kill_c == doctest::Approx(-1));
  CHECK(changed.hardiness == before.hardiness);
  CHECK(changed.family == before.family);
  CHECK(changed.group == before.group);
  CHECK(changed.nitrogen.uptake_kg_ha == before.nitrogen.uptake_kg_ha);
  CHECK(said_of(changed, "yield") == "own records 2020 to 2026");
  CHECK(said_of(changed, "frost") == "own records 2020 to 2026");
  CHECK(said_of(changed, "days") == said_of(before, "days"));
  CHECK(said_of(changed, "harvest") == said_of(before, "harvest"));
  CHECK(loaded.rows->crops.size() == load::embedded_catalogue().crops.size());
}

TEST_CASE("catalogue files: a row like another gives only what differs, and shares its troubles") {
  const Loaded loaded = over_base(
      "family: solanaceae\n"
      "crops:\n"
      "  - {id: tomato-san-marzano, like: tomato, name: San Marzano, days: {least: 75, most: "
      "85}}\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const Crop& fresh = crop(*loaded.rows, "tomato-san-marzano");
  CHECK(fresh.name == "San Marzano");
  CHECK(fresh.days_max == doctest::Approx(85));
  CHECK(fresh.days_from_transplanting);
  CHECK(fresh.also.empty());
  const auto id = loaded.rows->find_crop("tomato-san-marzano");
  const auto blight = loaded.rows->find_pathogen("early-blight");
  REQUIRE(blight);
  CHECK(loaded.rows->pathogen(*blight).host(*id) != nullptr);
  CHECK(loaded.rows->break_between(*id, *loaded.rows->find_crop("potato"), false).rec == 3);
  CHECK(said_of(fresh, "days") == "as given in my.yaml, line 3");
  CHECK(said_of(fresh, "yield") == said_of(crop(load::embedded_catalogue(), "tomato"), "yield"));
}

TEST_CASE("catalogue files: what a row changes in part is told beside the source of the rest") {
  const Loaded loaded = over_base(
      "crops:\n"
      "  - id: rye\n"
      "    temperature: {base_c: 1}\n"
      "    cover: {n_pct: {vegetative: 3.1}, windows: [{from: {last-frost: -8}, to: {first-frost: "
      "2}}], regrowth: low}\n"
      "    source: {temperature: trial of 2025}\n"
      "  - {id: carrot, days: {least: 60, most: 80}, feeder: medium}\n"
      "  - {id: tomato, temperature: {setting: {weeks: 8, night_c: 22}}}\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const Crop& rye = crop(*loaded.rows, "rye");
  const Crop& before = crop(load::embedded_catalogue(), "rye");
  CHECK(said_of(rye, "temperature") == "trial of 2025");
  const std::string own = "as given in my.yaml, line 2";
  CHECK(said_of(rye, "nitrogen") == own + "; " + said_of(before, "nitrogen"));
  CHECK(said_of(rye, "windows") == own);
  CHECK(said_of(rye, "stand") == own + "; " + said_of(before, "stand"));
  CHECK(said_of(rye, "biomass") == said_of(before, "biomass"));
  const Crop& carrot = crop(*loaded.rows, "carrot");
  CHECK(said_of(carrot, "days") == "as given in my.yaml, line 6");
  CHECK(said_of(carrot, "feeder") == "as given in my.yaml, line 6");
  const Crop& tomato = crop(*loaded.rows, "tomato");
  CHECK(said_of(tomato, "setting") == "as given in my.yaml, line 7");
  CHECK(said_of(tomato, "setting_weeks") == "as given in my.yaml, line 7");
  CHECK(said_of(tomato, "temperature") ==
        said_of(crop(load::embedded_catalogue(), "tomato"), "temperature"));
}

TEST_CASE("catalogue files: a local calendar is a pair of days or a list of pairs") {
  const Loaded loaded = over_base(
      "crops:\n"
      "  - {id: bush-bean, calendar: [[03-29, 05-15], [11-20, 01-10]], source: county chart}\n"
      "  - {id: garlic, calendar: [10-01, 11-15]}\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const Crop& bean = crop(*loaded.rows, "bush-bean");
  REQUIRE(bean.local_calendar.size() == 2);
  CHECK(bean.local_calendar[0].first == catalogue::MonthDay{3, 29});
  CHECK(bean.local_calendar[1].last == catalogue::MonthDay{1, 10});
  CHECK(said_of(bean, "calendar") == "county chart");
  const Crop& garlic = crop(*loaded.rows, "garlic");
  REQUIRE(garlic.local_calendar.size() == 1);
  CHECK(garlic.local_calendar[0].last == catalogue::MonthDay{11, 15});
  CHECK(said_of(garlic, "calendar") == "as given in my.yaml, line 3");
  CHECK(crop(load::embedded_catalogue(), "garlic").local_calendar.empty());
  // One day is no span, and 30 February no day.
  const Loaded wrong = over_base(
      "crops:\n  - {id: garlic, calendar: [[10-01]]}\n"
      "  - {id: tomato, calendar: [02-30, 05-01]}\n");
  CHECK(wrong.lines().find("my.yaml:2:29: error[wrong-shape]") != std::string::npos);
  CHECK(wrong.lines().find("my.yaml:3:29: error[impossible-date]") != std::string::npos);
}

TEST_CASE("catalogue files: a new family, its crop, and a disease of it") {
  const Loaded loaded = over_base(
      "family: basellaceae\n"
      "name: Basellaceae\n"
      "breaks: [{id: basellaceae, label: Malabar spinach, crop: {min: 0, rec: 1}}]\n"
      "crops:\n"
      "  - {id: malabar-spinach, like: new-zealand-spinach, name: Malabar spinach}\n"
      "pathogens:\n"
      "  - id: malabar-spot\n"
      "    name: leaf spot\n"
      "    half_life_years: [0.5, 1, 2]\n"
      "    break_years: [1, 2, 3]\n"
      "    gain: 2\n"
      "    hosts: {prone: [malabar-spinach], partial: [chard]}\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const auto id = loaded.rows->find_crop("malabar-spinach");
  REQUIRE(id);
  CHECK(loaded.rows->family(loaded.rows->crop(*id).family).id == "basellaceae");
  CHECK(loaded.rows->break_between(*id, *id, false).rec == 1);
  CHECK(loaded.rows->pathogens.back().host(*id) != nullptr);
}

TEST_CASE("catalogue files: a new brassica is taken as a host of clubroot") {
  const Loaded loaded = over_base(
      "family: brassicaceae\n"
      "crops:\n"
      "  - id: land-cress\n"
      "    name: land cress\n"
      "    kind: vegetable\n"
      "    start: {how: sow}\n"
      "    seed: {class: small, mass_mg: 1}\n"
      "    days: {from: sowing, least: 50, most: 60}\n"
      "    harvest: {mode: cut-again, weeks: [4, 10]}\n"
      "    yield: {unit: kg, per_m2: [0.5, 1, 1.5]}\n"
      "    hardiness: {class: very-hardy, sowing_class: hardy, kill_c: -15}\n"
      "    temperature: {base_c: 4.4, cap_c: 24, soil_min_c: 4, growth_c: [4, 24]}\n"
      "    life: {cycle: biennial, years: 1, overwinters: true}\n"
      "    nitrogen: {yield_t_ha: 15, uptake_kg_ha: 90, harvest_kg_per_t: 4, residue_n_pct: 3}\n"
      "    source: seed packet, 2026\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const auto clubroot = loaded.rows->find_pathogen("clubroot");
  REQUIRE(clubroot);
  CHECK(loaded.rows->pathogen(*clubroot).host(*loaded.rows->find_crop("land-cress")) != nullptr);
}

TEST_CASE("catalogue files: each mistake is told with its place and a way out") {
  struct Row {
    const char* text;
    const char* expected;  ///< begins the only line of output
  };
  const Row table[] = {
      {"crop: [a]\n", "my.yaml:1:1: error[unknown-key]"},
      {"crops:\n  - {id: tomato, wurk: low}\n", "my.yaml:2:18: error[unknown-key]"},
      {"crops:\n  - {id: tomato, work: lowe}\n", "my.yaml:2:24: error[unknown-word]"},
      {"crops:\n  - {name: nameless}\n", "my.yaml:2:5: error[missing-key]"},
      {"crops:\n  - {id: My Tomato}\n", "my.yaml:2:10: error[bad-id]"},
      {"crops:\n  - {id: tomato}\n  - {id: tomato}\n", "my.yaml:3:10: error[row-twice]"},
      {"crops:\n  - {id: tomato, root_depth_cm: deep}\n", "my.yaml:2:33: error[not-a-number]"},
      {"crops:\n  - {id: tomato, root_depth_cm: 900}\n", "my.yaml:2:33: error[out-of-range]"},
      {"crops:\n  - {id: tomato, days: {least: 90, most: 60}}\n",
       "my.yaml:2:24: error[out-of-order]"},
      {"crops:\n  - {id: tomato, yield: {per_m2: [1, 2]}}\n", "my.yaml:2:34: error[wrong-count]"},
      {"crops:\n  - {id: my-one, like: tomatoe}\n", "my.yaml:2:24: error[unknown-crop]"},
      {"crops:\n  - {id: tomato, residue: straw}\n", "my.yaml:2:27: error[unknown-residue]"},
      {"crops:\n  - {id: tomato, cautions: [faba]}\n", "my.yaml:2:29: error[unknown-caution]"},
      {"crops:\n  - {id: tomato, source: nowhere}\n", "my.yaml:2:26: error[unknown-source]"},
      {"crops:\n  - {id: tomato, source: {yield: {hearsay: a book}}}\n",
       "my.yaml:2:35: error[unknown-grade]"},
      {"crops:\n  - {id: bush-bean, break_group: beans}\n", "my.yaml:2:34: error[unknown-break]"},
      {"crops:\n  - {id: rye, cover: {endings: [eaten]}}\n", "my.yaml:2:33: error[unknown-ending]"},
      {"pathogens:\n  - {id: clubroot, hosts: {prone: [kail]}}\n",
       "my.yaml:2:36: error[unknown-crop]"},
      {"pathogens:\n  - {id: clubroot, tolerance: {tomato: 2}}\n",
       "my.yaml:2:32: error[unknown-crop]"},
      {"climates:\n  - {id: minneapolis, frost: {last: 13-45}}\n",
       "my.yaml:2:37: error[not-a-date]"},
      {"soils:\n  - {id: loam, wilting_point: 0.3}\n", "my.yaml:2:5: error[out-of-order]"},
      {"crops: tomato\n", "my.yaml:1:8: error[wrong-shape]"}};
  for (const Row& row : table) {
    const std::string text = row.text;
    CAPTURE(text);
    const Loaded loaded = over_base(text);
    CHECK_FALSE(loaded.rows);
    REQUIRE(loaded.said.all().size() == 1);
    const std::string line = loaded.lines();
    CAPTURE(line);
    CHECK(line.starts_with(row.expected));
    CHECK_FALSE(loaded.said.all().front().help.empty());
  }
}

TEST_CASE("catalogue files: all mistakes of a file are told in one go") {
  const Loaded loaded = over_base(
      "crops:\n"
      "  - {id: tomato, wurk: low}\n"
      "  - {id: kale, root_depth_cm: deep}\n"
      "  - {id: sea-kale}\n");
  CHECK_FALSE(loaded.rows);
  // An unknown key, no number, and a new crop that lacks its family and eleven keys.
  CHECK(loaded.said.count(diagnostic::Severity::Error) == 14);
}

TEST_CASE("catalogue files: a near word is suggested") {
  CHECK(over_base("crops:\n  - {id: tomato, hardines: {}}\n").said.all().front().help ==
        "did you mean \"hardiness\"?");
  CHECK(over_base("crops:\n  - {id: x, like: tomatto}\n").said.all().front().help ==
        "did you mean \"tomato\"?");
}

TEST_CASE("catalogue files: a file that is not there") {
  diagnostic::Diagnostics said;
  CHECK_FALSE(
      load::load_catalogue(load::embedded_catalogue(), "gone.yaml", support::reader({}), said));
  REQUIRE(said.all().size() == 1);
  CHECK(said.all().front().id == "file-unreadable");
  CHECK(said.all().front().message.find("No such file") != std::string::npos);
}

TEST_CASE("catalogue files: what a site does to soil, water and crops can be set as well") {
  const Loaded loaded = over_base(
      "site:\n"
      "  shelter: {tunnel_night_c: {value: 3, source: own records 2024 to 2026}}\n"
      "  emergence: {days: {okra: [0, 0, 0, 30, 20, 15, 10, 8, 9]}}\n");
  CHECK(loaded.lines() == "");
  REQUIRE(loaded.rows);
  const auto& site = loaded.rows->coefficients.site;
  CHECK(site.shelter.tunnel_night_c == 3.0);
  CHECK(site.shelter.fleece_night_c == 1.5);
  CHECK(site.emergence.rows.size() ==
        load::embedded_catalogue().coefficients.site.emergence.rows.size());
  CHECK(over_base("site:\n  shelter: {tunel_night_c: {value: 3}}\n").said.has_errors());
  CHECK(over_base("site:\n  earliest: {risk: [0.1, 0.2]}\n").said.has_errors());
}
