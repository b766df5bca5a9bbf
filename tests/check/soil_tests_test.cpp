#include <doctest/doctest.h>

#include <string>

#include "support/judged.h"

using namespace aftercrop;

namespace {

/// The one finding of test-disagrees for a bed of 6 m2 tested in May, or none.
std::optional<diagnostic::Diagnostic> finding_for(const std::string& typed,
                                                  const std::string& units) {
  const auto ground = support::ground_of(
      "garden: Trial\nsite: {climate: minneapolis}\nunits: " + units +
          "\nseasons: {from: 2027-03-01, years: 1}\n"
          "beds:\n  - {beds: [A], length: 6 m, width: 1 m, sections: 1, soil: loam}\n"
          "tests:\n  - {bed: A, date: 2027-05-10, nitrate_n: " +
          typed + ", depth: 30 cm}\n",
      "plan: none\nplantings: []\n");
  const auto judged = ground.judge();
  for (const auto& one : judged.findings.all()) {
    if (one.id == "test-disagrees") return one;
  }
  return {};
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("soil tests: ppm typed for kg/ha is told with both readings") {
  CHECK_FALSE(finding_for("10 kg/ha", "metric"));
  const auto wrong = finding_for("10 ppm", "metric");
  REQUIRE(wrong);
  // 10 ppm of 30 cm of loam (1.35 g/cm3): 10 * 0.1 * 30 * 1.35 = 40.5 kg/ha, in the profile 40.5 /
  // 0.6 = 67.5 kg/ha, on 6 m2 40.5 g. 10 kg/ha in the sample: 16.7 in the profile, 10 g.
  CHECK(holds(wrong->message, "(10 ppm) says 41 g"));
  CHECK(holds(wrong->help, "read as 10 ppm it is 41 g"));
  CHECK(holds(wrong->help, "read as 10 kg/ha it would be 10 g, which fits the ledger"));
}

TEST_CASE("soil tests: kg/ha typed for ppm is told too, in the garden's units") {
  CHECK_FALSE(finding_for("3 ppm", "us"));
  const auto wrong = finding_for("3 kg/ha", "us");
  REQUIRE(wrong);
  // 3 kg/ha / 0.6 on 6 m2 = 3 g; 3 ppm = 12.15 kg/ha, / 0.6 on 6 m2 = 12.15 g = 0.43 oz.
  CHECK(holds(wrong->message, "says 0.11 oz"));
  CHECK(holds(wrong->help, "read as 3 ppm it would be 0.43 oz"));
}

TEST_CASE("soil tests: a number that fits in no unit is not explained by one") {
  const auto wild = finding_for("90 ppm", "metric");
  REQUIRE(wild);
  CHECK_FALSE(holds(wild->help, "read as"));
  CHECK(holds(wild->help, "manure"));
}
