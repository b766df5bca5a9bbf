#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "support/reading.h"

using namespace aftercrop;
using support::read_garden;
using support::Reading;

namespace {

const std::string kShortest =
    "seasons: 2027\n"
    "site: {last_frost: 05-08, first_frost: 10-05}\n"
    "beds: 6 of 8 ft x 4 ft\n"
    "wants: [tomatoes, lettuce, carrots, green beans, garlic, {crop: kale, amount: 20 plants}]\n";

/// A small garden with one more line.
std::string with(const std::string& lines) {
  return "garden: Lot\nsite: {climate: minneapolis}\nseasons: {from: 2027-03-01, years: 3}\n"
         "beds:\n  - {beds: [N1, N2], length: 4 m, width: 1 m, sections: 2, soil: loam, "
         "organic_matter: 3 %, ph: 6.5, watered: yes}\n" +
         lines;
}

double near(double value) { return std::round(value * 1000.0) / 1000.0; }

}  // namespace

TEST_CASE("garden: the shortest file loads, and what is assumed is said once") {
  const Reading reading = read_garden(kShortest);
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  const garden::Garden& garden = reading.loaded->garden;
  CHECK(garden.name == "lot");
  CHECK(garden.units == garden::UnitSystem::Us);
  CHECK(garden.years == 1);
  CHECK(garden.beds.size() == 12);  // 6 beds in 2 sections: 2.44 m / 1.2 m
  CHECK(garden.beds[1].name == "A.2");
  CHECK(near(garden.beds[1].area.value()) == 1.486);  // 32 ft2 x 0.09290304 / 2
  CHECK(garden.site.normals.id == "minneapolis");
  CHECK(*garden.site.normals.last_frost == catalogue::MonthDay{5, 8});
  for (const char* id : {"assumed", "site-chosen", "beds-divided", "want-share", "crop-reading"}) {
    CAPTURE(id);
    CHECK(reading.count(id) == 1);
  }
  CHECK(reading.said.count(diagnostic::Severity::Note) == 5);
  CHECK(reading.said.count(diagnostic::Severity::Warning) == 0);
}

TEST_CASE("garden: what is told of beds is in the units in which they are measured, or named") {
  const auto told = [](const std::string& beds) {
    const Reading reading =
        read_garden("seasons: 2027\nsite: {last_frost: 05-08, first_frost: 10-05}\n" + beds +
                    "wants: [kale]\n");
    for (const auto& one : reading.said.all()) {
      if (one.id == "beds-divided") return one.message;
    }
    return std::string();
  };
  const std::string head = "each bed is divided into 2 sections of ";
  CHECK(told("beds: 6 of 8 ft x 4 ft\n") == head + "4 ft with a record each");
  CHECK(told("beds: 1 of 8 ft x 4 ft\n") ==
        "the bed is divided into 2 sections of 4 ft with a record each");
  CHECK(told("units: metric\nbeds: 6 of 8 ft x 4 ft\n") == head + "1.2 m with a record each");
  CHECK(told("units: us\nbeds: 6 of 2.4 m x 1.2 m\n") == head + "3.9 ft with a record each");
  const Reading list = read_garden(with("").replace(with("").find("4 m"), 3, "13 ft"));
  REQUIRE(list.loaded);
  CHECK(list.loaded->garden.units == garden::UnitSystem::Us);
}

TEST_CASE("garden: a want without an amount is its equal share of the land, salads in repeats") {
  const Reading reading = read_garden(kShortest);
  REQUIRE(reading.loaded);
  const auto& wants = reading.loaded->garden.wants;
  const auto total = [&](const char* id) {
    double sum = 0.0;
    for (const garden::Want& want : wants) {
      if (reading.loaded->catalogue.crop(want.crop).id == id) sum += want.amount;
    }
    return near(sum);
  };
  // 192 ft2 = 17.837 m2; a sixth is 2.973 m2; times 4.0, 1.7 and 0.8 kg/m2
  CHECK(total("tomato") == 11.892);
  CHECK(total("lettuce-leaf") == 5.054);
  CHECK(total("garlic") == 2.378);
  CHECK(total("kale") == 20.0);
  int salads = 0;
  for (const garden::Want& want : wants) {
    if (reading.loaded->catalogue.crop(want.crop).id == "lettuce-leaf") ++salads;
  }
  CHECK(salads == 5);
}

TEST_CASE("garden: whole messages of common mistakes") {
  struct Row {
    const char* name;
    std::string text;
    std::string expected;
  };
  const std::vector<Row> rows = {
      {"unknown key", with("wnts: [kale]\n"),
       "lot/garden.yaml:6:1: error[unknown-key]: \"wnts\" is not a key of the garden\n"
       " 6 | wnts: [kale]\n"
       "   | ^^^^\n"
       "  help: did you mean \"wants\"?\n"},
      {"unknown crop", with("wants: [tomatoe]\nhistory: []\n"),
       "lot/garden.yaml:6:9: error[unknown-crop]: \"tomatoe\" is not a crop of the catalogue\n"
       " 6 | wants: [tomatoe]\n"
       "   |         ^^^^^^^\n"
       "  help: did you mean \"tomato\"?\n"},
      {"bare number", with("history: []\nwants: [{crop: kale, amount: 20}]\n"),
       "lot/garden.yaml:7:30: error[missing-unit]: the amount of a want is 20 without a unit\n"
       " 7 | wants: [{crop: kale, amount: 20}]\n"
       "   |                              ^^\n"
       "  help: it could be 20 kg, 20 lb, 20 plants, 20 stems, 20 beds, 20 m2, 20 ft2\n"},
      {"impossible date",
       with("history:\n  - {bed: N1, crop: kale, from: 2026-02-30, to: 2026-10-02}\n"),
       "lot/garden.yaml:7:33: error[impossible-date]: 2026-02-30 is not a day of the calendar\n"
       " 7 |   - {bed: N1, crop: kale, from: 2026-02-30, to: 2026-10-02}\n"
       "   |                                 ^^^^^^^^^^\n"
       "  help: February 2026 has 28 days\n"},
      {"bed named twice",
       with("  - {bed: N2, length: 3 m, width: 1 m, soil: loam, "
            "organic_matter: 3 %, ph: 7, watered: no}\nhistory: []\n"),
       "lot/garden.yaml:6:11: error[bed-named-twice]: the bed \"N2\" is named twice\n"
       " 6 |   - {bed: N2, length: 3 m, width: 1 m, soil: loam, organic_matter: 3 ...\n"
       "   |           ^^\n"
       "  lot/garden.yaml:5:13: first here\n"
       " 5 |   - {beds: [N1, N2], length: 4 m, width: 1 m, sections: 2, soil: loam...\n"
       "   |             ^^\n"
       "  help: give each bed a name of its own\n"},
      {"overlapping history",
       with("history:\n  - {bed: N1.1, crop: kale, from: 2026-05-01, to: 2026-10-02}\n"
            "  - {bed: N1, crop: garlic, from: 2026-10-01, to: 2027-07-02}\n"),
       "lot/garden.yaml:8:21: error[history-overlap]: garlic stands in N1.1 from 2026-10-01, while "
       "kale stands there until 2026-10-02\n"
       " 8 |   - {bed: N1, crop: garlic, from: 2026-10-01, to: 2027-07-02}\n"
       "   |                     ^^^^^^\n"
       "  lot/garden.yaml:7:23: kale is said here\n"
       " 7 |   - {bed: N1.1, crop: kale, from: 2026-05-01, to: 2026-10-02}\n"
       "   |                       ^^^^\n"
       "  help: correct one of the dates, or name the section (N1.2)\n"},
      {"too much nitrogen",
       with("history: []\namendments:\n  - {bed: N1, date: 2027-04-20, material: blood meal, "
            "amount: 12 t/ha}\n"),
       // 12,000 kg/ha x 12.5 % x 0.66
       "lot/garden.yaml:8:63: error[too-much-nitrogen]: blood-meal in N1.1 would bring 990 kg/ha "
       "of "
       "available nitrogen in 2027\n"
       " 8 |   - {bed: N1, date: 2027-04-20, material: blood meal, amount: 12 t/ha}\n"
       "   |                                                               ^^^^^^^\n"
       "  help: at most 300 kg/ha a year is taken: check the amount and its unit\n"},
      {"two readings of different kind", with("history: []\nwants: [mustard]\n"),
       "lot/garden.yaml:7:9: error[ambiguous-crop]: \"mustard\" could be mustard-greens, "
       "mustard-white\n"
       " 7 | wants: [mustard]\n"
       "   |         ^^^^^^^\n"
       "  help: write the one that is meant\n"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    const Reading reading = read_garden(row.text);
    CHECK(!reading.loaded);
    std::string errors;
    for (const auto& one : reading.said.all()) {
      if (one.severity == diagnostic::Severity::Error) errors += diagnostic::render_full(one, {});
    }
    CHECK(errors == row.expected);
  }
}

TEST_CASE("garden: each mistake has an id of its own") {
  struct Row {
    std::string line;
    const char* id;
  };
  const std::vector<Row> rows = {
      {"seasons: 2028\n", "yaml-duplicate-key"},
      {"soil: moon dust\n", "unknown-soil"},
      {"units: imperial\n", "unknown-word"},
      {"people: dogs\n", "unknown-word"},
      {"materials: [gold]\n", "unknown-material"},
      {"rules: {bare-wintr: off}\n", "unknown-rule"},
      {"rules: {nitrogen-surplus: require}\n", "rule-setting"},
      {"rules: [off]\n", "wrong-shape"},
      {"work: {hours_per_week: -1}\n", "out-of-range"},
      {"work: {hours_per_week: nan}\n", "not-a-number"},
      {"work: {hours_per_week: 1, except: [{from: 2028-01-01, to: 2027-01-01, hours: 0}]}\n",
       "date-order"},
      {"costs: {nitrogen: 6}\n", "missing-unit"},
      {"costs: {nitrogen: 6 /h}\n", "wrong-unit"},
      {"accept: [{bed: N1, rule: family-break}]\n", "missing-key"},
      {"tests: [{bed: N9, date: 2027-03-10, nitrate_n: 14 ppm}]\n", "unknown-bed"},
      {"tests: [{bed: N1, date: 2027-03-10}]\n", "missing-key"},
      {"tests: [{bed: N1, date: 2027-03-10, nitrate_n: 1400 ppm}]\n", "out-of-range"},
      {"tests: [{bed: N1, date: 03-10, nitrate_n: 14 ppm}]\n", "not-a-date"},
      {"sightings: [{bed: N1, disease: flu, date: 2026-08-15}]\n", "unknown-disease"},
      {"sightings: [{bed: N1, disease: clubroot, date: 2026-13-15}]\n", "impossible-date"},
      {"amendments: [{bed: N1, date: 2027-04-20, material: compost, amount: 30 ft2}]\n",
       "wrong-unit"},
      {"amendments: [{bed: N1, date: 2027-04-20, material: compost, amount: 2 m}]\n",
       "out-of-range"},
      {"keep: [{bed: N1, crop: kale, from: 2027-06-01, to: 2027-05-01}]\n", "date-order"},
      {"history: [{bed: N1, crop: kale, to: 2026-05-01}]\n", "missing-key"},
      {"history: [{bed: N1, crop: kale, from: 2026-05-01, ending: eaten}]\n", "unknown-ending"},
      {"history: [{plan: no.yaml, until: 2026-05-01}]\n", "file-unreadable"},
      {"history: [{bed: N1, crop: kale, from: 1987-05-01, to: 1987-08-01}]\n", "date-far"},
      {"history: {}\n", "wrong-shape"},
      {"wants: [{crop: kale, amount: 12 furlongs}]\n", "unknown-unit"},
      {"wants: [{crop: kale, amount: 1,200 lb}]\n", "yaml-syntax"},
      {"wants:\n  - {crop: kale, amount: '1,200 lb'}\n", "unknown-unit"},
      {"wants: [{crop: kale, amount: 30 stems}]\n", "want-unit"},
      {"wants: [{crop: rye, amount: 3 beds}]\n", "want-cover"},
      {"plantings: []\n", "plan-for-garden"},
      {"wants: [{crop: kale, harvest: [2027-07-01, 08-01]}]\n", "wrong-shape"},
      {"wants: [{crop: kale, harvest: [2026-07-01, 2026-08-01]}]\n", "date-order"},
      {"wants: [{crop: kale, weight: -1}]\n", "out-of-range"},
      {"wants: [kale,]\nsoil:\n", "missing-value"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.line);
    const Reading reading = read_garden(with(row.line));
    CHECK(!reading.loaded);
    CAPTURE(reading.text());
    bool first = false;
    for (const auto& one : reading.said.all()) {
      if (one.severity != diagnostic::Severity::Error) continue;
      first = one.id == row.id;
      break;
    }
    CHECK((first || row.id == std::string("yaml-syntax")));
  }
}

TEST_CASE("garden: ways out of common mistakes") {
  struct Row {
    std::string text;
    const char* id;
    const char* help;
  };
  const std::vector<Row> rows = {
      {"seasons: 2027\nsite: {climate: edinburgh}\nbeds: 2 of 2 m x 1 m\n", "unknown-climate",
       "write `near: [latitude, longitude]` instead"},
      {"seasons: 2027\nbeds: 2 of 2 m x 1 m\n", "missing-key", "add `site: {climate: boston}`"},
      {with("wants: [{crop: kale, amount: 5 km}]\n"), "unknown-unit", "did you mean \"kg\"?"},
      {with("wants: [{crop: kale, amount: -5 kg}]\n"), "out-of-range",
       "it can be anything above 0 kg"},
      {with("wants:\n  - {crop: kale, amount: 5 kg\n"), "yaml-syntax", "close every ["},
      {with("wants:\n  - {crop: kale, amount: \"5 kg}\n"), "yaml-unclosed-quote",
       "close the quote"},
      {with("wants: [{crop: rye, amount: 3 beds}]\n"), "want-cover", "`keep: ["},
      {with("history: [{bed: Z, crop: kale, from: 2026-05-20, to: 2026-09-01}]\n"), "unknown-bed",
       "its beds are N1, N2;"},
      {with("history: [{bed: n1, crop: kale, from: 2026-05-20, to: 2026-09-01}]\n"), "unknown-bed",
       "did you mean \"N1\"?"}};
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const Reading reading = read_garden(row.text);
    CHECK(!reading.loaded);
    CAPTURE(reading.text());
    bool found = false;
    for (const auto& one : reading.said.all()) {
      found = found || (one.id == row.id && one.help.find(row.help) != std::string::npos);
    }
    CHECK(found);
  }
}

TEST_CASE("garden: a pest that no partner is there for is told, others are not") {
  const auto told = [](const char* pests) {
    diagnostic::Diagnostics said;
    const auto loaded = load::load_garden(
        "lot/garden.yaml", load::embedded_catalogue(),
        support::reader({{"lot/garden.yaml", std::string("seasons: 2027\nsite: {climate: boston}\n"
                                                         "beds: 2 of 2 m x 1 m\npests: ") +
                                                 pests + "\n"}}),
        said);
    REQUIRE(loaded);
    int count = 0;
    for (const auto& one : said.all()) count += one.id == "unknown-pest" ? 1 : 0;
    return count;
  };
  CHECK(told("[flea beetles, stink-bug]") == 0);
  CHECK(told("[slugs, flea beetle]") == 1);
}

TEST_CASE("garden: ten mistakes are told in one go, each at its line") {
  const Reading reading = read_garden(
      "gardn: Bad\n"
      "site: {climate: mineapolis}\n"
      "seasons: {from: 2027-03-01, years: 40}\n"
      "beds:\n"
      "  - {bed: N1, length: 16, width: 4 ft}\n"
      "  - {bed: N2, length: -3 m, width: 4 ft, soil: silty lome}\n"
      "  - {bed: N2, length: 5 m, width: nan m}\n"
      "history:\n"
      "  - {bed: N1, crop: tomatoe, from: 2026-02-30, to: 2026-10-02}\n"
      "wants: [mustard]\n");
  CHECK(!reading.loaded);
  const std::vector<std::pair<const char*, int>> expected = {
      {"unknown-key", 1},  {"unknown-climate", 2}, {"horizon-out-of-range", 3}, {"missing-unit", 5},
      {"out-of-range", 6}, {"unknown-soil", 6},    {"bed-named-twice", 7},      {"not-a-number", 7},
      {"unknown-crop", 9}, {"impossible-date", 9}, {"ambiguous-crop", 10}};
  std::vector<std::pair<std::string, int>> got;
  for (const auto& one : reading.said.all()) {
    if (one.severity == diagnostic::Severity::Error) got.emplace_back(one.id, one.source.line);
  }
  REQUIRE(got.size() == expected.size());
  for (std::size_t i = 0; i < got.size(); ++i) {
    CHECK(got[i].first == expected[i].first);
    CHECK(got[i].second == expected[i].second);
  }
}

TEST_CASE("garden: quantities of a record reach the accounts they are for") {
  const Reading reading = read_garden(
      with("history: []\n"
           "tests: [{bed: N1.2, date: 2027-03-10, nitrate_n: 14.0 ppm}]\n"
           "sightings: [{bed: N1.1, disease: Verticillium wilt, date: 2026-08-15}]\n"
           "amendments:\n"
           "  - {bed: N1, date: 2027-04-20, material: compost, amount: 20 kg}\n"
           "  - {bed: N2.1, date: 2027-04-20, material: compost, amount: 20 kg}\n"
           "  - {bed: all, each: year, date: 04-15, material: compost, amount: 1 cm}\n"));
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  const garden::Garden& garden = reading.loaded->garden;
  REQUIRE(garden.tests.size() == 1);
  CHECK(garden.bed(garden.tests[0].bed).name == "N1.2");
  CHECK(garden.tests[0].nitrate_digits == doctest::Approx(0.05));
  REQUIRE(garden.sightings.size() == 2);
  CHECK(!garden.sightings[0].shared);
  CHECK(garden.sightings[1].shared);
  CHECK(garden.bed(garden.sightings[1].bed).name == "N1.2");
  REQUIRE(garden.applications.size() == 15);  // 2 sections, 1 section, 4 sections in 3 years
  CHECK(garden.applications[0].kg_per_m2 == doctest::Approx(5.0));   // 20 kg on 4 m2
  CHECK(garden.applications[2].kg_per_m2 == doctest::Approx(10.0));  // 20 kg on 2 m2
  CHECK(garden.applications[3].kg_per_m2 == doctest::Approx(6.0));   // 10 l/m2 x 0.6 kg/l
  CHECK(garden.applications[5].date.text() == "2029-04-15");
}

TEST_CASE("garden: an earlier plan is history, corrected by later lines") {
  const std::string plan =
      "plan: last\nplantings:\n"
      "  - {bed: N1.1, crop: kale, from: 2026-05-01, to: 2026-08-01}\n"
      "  - {bed: N1.2, crop: rye, from: 2026-09-15, to: 2027-04-20, ending: mown}\n"
      "  - {bed: N2.1, crop: rye, from: 2026-11-15, to: 2027-04-20, ending: mown}\n";
  const Reading reading =
      read_garden(with("history:\n  - {plan: last.yaml, until: 2026-11-01}\n"
                       "  - {bed: N1.1, crop: tomato, from: 2026-05-20, to: 2026-10-02}\n"
                       "keep: [{bed: N2, crop: garlic, from: 2026-10-05, to: 2027-07-10}]\n"),
                  {{"lot/last.yaml", plan}});
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  const auto& history = reading.loaded->garden.history;
  REQUIRE(history.size() == 4);
  CHECK(reading.loaded->catalogue.crop(history[0].crop).id == "tomato");
  CHECK(history[1].to.text() == "2027-04-20");  // runs to its planned end
  CHECK(history[1].ending == catalogue::Ending::Mown);
  CHECK(history[2].kept);
  CHECK(history[3].kept);
  CHECK(history[0].ending == catalogue::Ending::HarvestedCut);
  CHECK(history[2].ending == catalogue::Ending::HarvestedPulled);
}

TEST_CASE("garden: a plan that repeats a kept stand counts it once") {
  const Reading reading =
      read_garden(with("keep: [{bed: N1.1, crop: garlic, from: 2027-10-05, to: 2028-07-10}]\n"));
  REQUIRE(reading.loaded);
  diagnostic::Diagnostics said;
  const auto plan = load::load_plan(
      "lot/plan.yaml", *reading.loaded,
      support::reader({{"lot/plan.yaml",
                        "plan: next\nmade_by: aftercrop 0.1.0\nplantings:\n"
                        "  - {bed: N1.1, crop: garlic, from: 2027-10-05, to: 2028-07-10}\n"
                        "  - {bed: N1.1, crop: kale, from: 2027-05-05}\n"
                        "  - {bed: N1.2, crop: tomato, from: 2027-05-24, raised: 2027-04-05, "
                        "harvest: [2027-08-02, 2027-10-04], to: 2027-10-04, ending: "
                        "harvested-cut, partners: [{crop: kale, at: edge}]}\n"}}),
      said);
  REQUIRE(plan);
  REQUIRE(plan->plantings.size() == 2);
  CHECK(plan->plantings[0].to > plan->plantings[0].from);
  CHECK(plan->plantings[1].harvest->past.text() == "2027-10-04");
  CHECK(plan->plantings[1].partners.size() == 1);
  REQUIRE(said.all().size() == 1);
  CHECK(said.all()[0].id == "dates-filled");
}

TEST_CASE("garden: seasons in the south run over New Year") {
  struct Row {
    const char* site;
    const char* seasons;
    bool good;
    int first_year;
  };
  const Row rows[] = {{"hobart", "2027", true, 2027},
                      {"hobart", "2027/28", true, 2027},
                      {"hobart", "2027/29", false, 0},
                      {"minneapolis", "2027", true, 2027},
                      {"minneapolis", "2027/28", false, 0},
                      {"minneapolis", "{from: 2027, years: 10}", true, 2027},
                      {"minneapolis", "{from: 2027, years: 11}", false, 0},
                      {"minneapolis", "{from: 2027-03-01, to: 2027-03-01}", false, 0},
                      {"minneapolis", "next year", false, 0}};
  for (const Row& row : rows) {
    CAPTURE(row.site);
    CAPTURE(row.seasons);
    const Reading reading = read_garden(std::string("garden: Lot\nsite: {climate: ") + row.site +
                                        "}\nseasons: " + row.seasons + "\nbeds: 2 of 2 m x 1 m\n");
    CHECK(reading.loaded.has_value() == row.good);
    if (!reading.loaded) continue;
    const auto& span = reading.loaded->garden.seasons;
    CHECK(calendar::monday(span.first).year() == row.first_year);
    const int month = calendar::monday(span.first).month();
    CHECK((std::string(row.site) == "hobart" ? month >= 6 && month <= 8 : month <= 2));
  }
}
