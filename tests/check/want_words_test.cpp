#include <string>

#include "support/judged.h"

// What is said of a want that is not met.
using namespace aftercrop;

namespace {

std::string way_out(const std::string& units) {
  const support::Ground ground = support::ground_of(
      "garden: one bed\nsite: {climate: minneapolis}\nunits: " + units +
          "\nseasons: {from: 2027-03-01, years: 1}\n"
          "beds:\n  - {beds: [A], length: 6 m, width: 1 m, soil: loam}\n"
          "wants:\n  - {crop: bush bean, amount: 10 m2, harvest: [07-15, 09-20]}\n",
      "plan: half\nplantings:\n"
      "  - {bed: A, crop: bush-bean, from: 2027-06-07, harvest: [2027-08-02, 2027-08-30], to: "
      "2027-08-30, ending: harvested-cut}\n");
  const check::Judgement judged = ground.judge();
  for (const auto& finding : judged.findings.all()) {
    if (finding.id == "want-unmet") return finding.help;
  }
  return {};
}

}  // namespace

TEST_CASE("want-unmet: what is missing is an area in the garden's units") {
  const std::string rest = " more of it would do at typical yield, or want less of it";
  CHECK(way_out("metric") == "4.0 m2" + rest);
  CHECK(way_out("us") == "43 ft2" + rest);  // 4 / 0.09290304
}
