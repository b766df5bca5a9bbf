#include <doctest/doctest.h>
#include <fmt/format.h>

#include <string>
#include <vector>

#include "aftercrop/climate/window.h"
#include "support/reading.h"

using namespace aftercrop;

namespace {

/// The stands of a plan as "bed crop year-month", in order.
std::vector<std::string> stands_of(const std::string& rotation, diagnostic::Diagnostics& said) {
  const auto reading = support::read_garden(
      "garden: Lot\nsite: {climate: minneapolis}\nseasons: {from: 2027, years: 4}\nbeds:\n"
      "  - {beds: [A, B, C], length: 4 m, width: 1 m, sections: 2}\n");
  const auto plan = load::load_plan(
      "plan.yaml", *reading.loaded,
      support::reader({{"plan.yaml", "plan: next door\nrotation:\n" + rotation}}), said);
  std::vector<std::string> stands;
  if (!plan) return stands;
  for (const garden::Planting& one : plan->plantings) {
    stands.push_back(reading.loaded->garden.bed(one.bed).name + " " +
                     reading.loaded->catalogue.crop(one.crop).id + " " +
                     one.from.text().substr(0, 7));
  }
  for (std::size_t i = 1; i < plan->plantings.size(); ++i) {
    const auto& before = plan->plantings[i - 1];
    const auto& after = plan->plantings[i];
    if (before.bed == after.bed) CHECK(before.to <= after.from);
  }
  return stands;
}

}  // namespace

TEST_CASE("rotation: a table fills in dates that do not clash, covers in the winter before") {
  diagnostic::Diagnostics said;
  const auto stands = stands_of(
      "  years: [2027, 2028, 2029]\n"
      "  beds:\n"
      "    A.1: [[rye, tomato], [carrot, lettuce-leaf], garlic]\n"
      "    B.2: [[kale, rye], tomato]\n",
      said);
  CAPTURE(fmt::format("{}", fmt::join(stands, ", ")));
  CHECK(stands == std::vector<std::string>{"A.1 rye 2026-09", "A.1 tomato 2027-05",
                                           "A.1 carrot 2028-04", "A.1 lettuce-leaf 2028-07",
                                           "A.1 garlic 2028-10", "B.2 kale 2027-06",
                                           "B.2 rye 2027-09", "B.2 tomato 2028-05"});
  CHECK(said.count(diagnostic::Severity::Error) == 0);
}

TEST_CASE("rotation: each bed joins a cycle one step on, the seam is there too") {
  diagnostic::Diagnostics said;
  const auto stands = stands_of("  cycle: [tomato, carrot + kale]\n  beds: A..B\n", said);
  CAPTURE(fmt::format("{}", fmt::join(stands, ", ")));
  // two steps: three years, so that the first comes round again
  CHECK(stands ==
        std::vector<std::string>{"A.1 tomato 2027-05", "A.1 carrot 2028-05", "A.1 tomato 2029-05",
                                 "A.2 tomato 2027-05", "A.2 kale 2028-06", "A.2 tomato 2029-05",
                                 "B.1 carrot 2027-05", "B.1 tomato 2028-05", "B.1 carrot 2029-05",
                                 "B.2 kale 2027-06", "B.2 tomato 2028-05", "B.2 kale 2029-06"});
}

TEST_CASE("rotation: a row keeps its order; a harvest gives way before two stands overlap") {
  struct Row {
    const char* climate;
    const char* cells;
    bool fits;
  };
  const Row rows[] = {{"minneapolis", "[[pea-shell, kale], tomato, carrot]", true},
                      {"minneapolis", "[[kale, tomato]]", false},
                      {"boston", "[[rye, squash-winter], potato, [oat, cabbage-late]]", true}};
  for (const Row& row : rows) {
    CAPTURE(row.cells);
    diagnostic::Diagnostics said;
    const auto proposal = load::load_proposal(
        "plan.yaml", load::embedded_catalogue(),
        support::reader({{"plan.yaml", fmt::format("plan: row\nsite: {{climate: {}}}\n"
                                                   "rotation:\n  years: [2027, 2028, 2029]\n"
                                                   "  beds:\n    A: {}\n",
                                                   row.climate, row.cells)}}),
        said);
    REQUIRE(proposal);
    const auto& stands = proposal->plan.plantings;
    for (std::size_t i = 1; i < stands.size(); ++i) {
      CAPTURE(stands[i].from.text());
      CHECK(stands[i - 1].from < stands[i].from);
      CHECK((stands[i - 1].to <= stands[i].from) == row.fits);
      if (stands[i].harvest) CHECK(stands[i].harvest->first < stands[i].harvest->past);
    }
  }
}

TEST_CASE("rotation: no date that is filled in lies out of its window, whatever the year") {
  for (const int year : {2027, 2028, 2029, 2032}) {
    CAPTURE(year);
    diagnostic::Diagnostics said;
    const auto proposal = load::load_proposal(
        "plan.yaml", load::embedded_catalogue(),
        support::reader({{"plan.yaml", fmt::format("plan: row\nsite: {{climate: minneapolis}}\n"
                                                   "rotation:\n  years: [{}]\n"
                                                   "  beds:\n    A: [[pea-shell, kale]]\n",
                                                   year)}}),
        said);
    REQUIRE(proposal);
    const auto& loaded = proposal->garden;
    climate::SiteClimate site(loaded.garden.site.normals, garden::Shelter::Open,
                              {loaded.garden.seasons.first, loaded.garden.seasons.past},
                              loaded.catalogue.coefficients.site);
    site.prepare(loaded.catalogue.crops);
    for (const garden::Planting& one : proposal->plan.plantings) {
      const catalogue::Crop& crop = loaded.catalogue.crop(one.crop);
      CAPTURE(crop.id);
      CAPTURE(one.from.text());
      CHECK(climate::judge_start(crop, site, calendar::week_of(one.from)).open());
    }
  }
}

TEST_CASE("rotation: a cover in spring is not ended by a frost that does not come") {
  diagnostic::Diagnostics said;
  const auto proposal = load::load_proposal(
      "plan.yaml", load::embedded_catalogue(),
      support::reader({{"plan.yaml",
                        "plan: oats\nsite: {climate: minneapolis}\nplantings:\n"
                        "  - {bed: A, crop: oat, from: 2027-04-05, to: 2027-06-14}\n"
                        "  - {bed: A, crop: oat, from: 2027-08-09, to: 2028-04-10}\n"}}),
      said);
  REQUIRE(proposal);
  REQUIRE(proposal->plan.plantings.size() == 2);
  CHECK(proposal->plan.plantings[0].ending == catalogue::Ending::Incorporated);
  CHECK(proposal->plan.plantings[1].ending == catalogue::Ending::Winterkilled);
}

TEST_CASE("proposal: a cover before the first crop of one bed is no record of the others") {
  diagnostic::Diagnostics said;
  const auto proposal = load::load_proposal(
      "plan.yaml", load::embedded_catalogue(),
      support::reader({{"plan.yaml",
                        "plan: two\nsite: {climate: minneapolis}\nrotation:\n"
                        "  years: [2027, 2028]\n"
                        "  beds: {A: [[rye, tomato], carrot], B: [carrot, kale]}\n"}}),
      said);
  REQUIRE(proposal);
  const garden::Garden& garden = proposal->garden.garden;
  CHECK(garden.years == 2);
  REQUIRE(garden.history.size() == 1);
  CHECK(garden.history[0].from < calendar::monday(garden.seasons.first));
  CHECK(proposal->plan.plantings.size() == 5);
}

TEST_CASE("rotation: mistakes of a table") {
  struct Row {
    const char* rotation;
    const char* id;
  };
  const Row rows[] = {{"  years: [2028, 2027]\n  beds: {A: [tomato]}\n", "rotation-shape"},
                      {"  years: [2027]\n  beds: {A: [tomato, kale]}\n", "rotation-shape"},
                      {"  years: [2027]\n  beds: [A]\n", "rotation-shape"},
                      {"  years: [2027]\n  beds: {A: [{a: b}]}\n", "rotation-shape"},
                      {"  years: [2027]\n  beds: {Z: [tomato]}\n", "unknown-bed"},
                      {"  years: [2027]\n  beds: {A: [tomatoe]}\n", "unknown-crop"},
                      {"  years: [2027]\n", "missing-key"},
                      {"  cycle: tomato\n  beds: A\n", "wrong-shape"}};
  for (const Row& row : rows) {
    CAPTURE(row.rotation);
    diagnostic::Diagnostics said;
    CHECK(stands_of(row.rotation, said).empty());
    REQUIRE(said.has_errors());
    for (const auto& one : said.all()) {
      if (one.severity == diagnostic::Severity::Error) CHECK(one.id == row.id);
    }
  }
}

TEST_CASE("proposal: a plan with its own site needs no garden file") {
  const catalogue::Catalogue rows = support::small_catalogue();
  diagnostic::Diagnostics said;
  const auto proposal = load::load_proposal(
      "plan.yaml", rows,
      support::reader({{"plan.yaml",
                        "plan: next door\nsite: {climate: hobart}\nplantings:\n"
                        "  - {bed: Q.2, crop: carrot, year: 2027}\nrotation:\n"
                        "  years: [2027, 2028]\n  beds: {A: [tomato, kale]}\n"}}),
      said);
  REQUIRE(proposal);
  CHECK(proposal->garden.garden.beds.size() == 3);  // Q.1, Q.2, A
  CHECK(proposal->plan.plantings.size() == 3);
  CHECK(proposal->garden.garden.years == 2);
  CHECK(said.count(diagnostic::Severity::Error) == 0);

  diagnostic::Diagnostics complaint;
  CHECK(!load::load_proposal(
      "plan.yaml", rows, support::reader({{"plan.yaml", "plan: x\nplantings: []\n"}}), complaint));
  REQUIRE(complaint.all().size() == 1);
  CHECK(complaint.all()[0].id == "missing-key");
}

TEST_CASE("proposal: more beds than a garden can have are one finding, at the first too many") {
  const catalogue::Catalogue rows = support::small_catalogue();
  std::string text =
      "plan: too large\nsite: {climate: hobart}\nrotation:\n  years: [2027]\n  beds:\n";
  for (int i = 1; i <= 2010; ++i) text += "    S" + std::to_string(i) + ": [kale]\n";
  diagnostic::Diagnostics said;
  CHECK(!load::load_proposal("plan.yaml", rows, support::reader({{"plan.yaml", text}}), said));
  REQUIRE(said.all().size() == 1);
  CHECK(said.all()[0].id == "too-many-beds");
  CHECK(said.all()[0].message == "more than 2000 beds and sections");
  CHECK(said.all()[0].source.line == 5 + 2001);
}
