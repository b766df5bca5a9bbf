#include <string>

#include "support/judged.h"

// What is told of a plan is in the garden's units.
using namespace aftercrop;

namespace {

/// The first finding of a rule, of beans on half of what is wanted.
diagnostic::Diagnostic told(const std::string& units, const std::string& rule,
                            const std::string& dates) {
  const support::Ground ground = support::ground_of(
      "garden: one bed\nsite: {climate: minneapolis}\nunits: " + units +
          "\nseasons: {from: 2027-03-01, years: 1}\n"
          "beds:\n  - {beds: [A], length: 6 m, width: 1 m, soil: loam}\n"
          "wants:\n  - {crop: bush bean, amount: 10 m2, harvest: [07-15, 09-20]}\n",
      "plan: half\nplantings:\n  - {bed: A, crop: bush-bean, " + dates +
          ", ending: harvested-cut}\n");
  const check::Judgement judged = ground.judge();
  for (const auto& finding : judged.findings.all()) {
    if (finding.id == rule) return finding;
  }
  return {};
}

std::string way_out(const std::string& units) {
  return told(units, "want-unmet",
              "from: 2027-06-07, harvest: [2027-08-02, 2027-08-30], to: 2027-08-30")
      .help;
}

std::string late_beans(const std::string& units) {
  return told(units, "frost-before-harvest",
              "from: 2027-08-16, harvest: [2027-10-04, 2027-11-01], to: 2027-11-01")
      .message;
}

}  // namespace

TEST_CASE("units: what is missing of a want is an area in the garden's units") {
  const std::string rest = " more of it would do at typical yield, or want less of it";
  CHECK(way_out("metric") == "4.0 m2" + rest);
  CHECK(way_out("us") == "43 ft2" + rest);  // 4 / 0.09290304
}

TEST_CASE("units: the frost that ends a crop is in the garden's degrees") {
  CHECK(late_beans("metric").find("the frost that ends it (0 C, ") != std::string::npos);
  CHECK(late_beans("us").find("the frost that ends it (32 F, ") != std::string::npos);
}
