#include <fmt/format.h>

#include <string>

#include "support/judged.h"

// A mixture of covers is of the kin of each of its parts.
using namespace aftercrop;

namespace {

/// What the family rule says of broccoli in the spring after a cover of one autumn.
std::string told_after(const std::string& cover) {
  const support::Ground ground = support::ground_of(
      "garden: one bed\nsite: {climate: minneapolis}\nunits: metric\n"
      "seasons: {from: 2027-03-01, years: 2}\n"
      "beds:\n  - {beds: [A], length: 6 m, width: 1 m, soil: loam}\n",
      fmt::format("plan: cover, then broccoli\nplantings:\n"
                  "  - {{bed: A, crop: {}, from: 2027-08-16, to: 2027-12-06, ending: "
                  "winterkilled}}\n"
                  "  - {{bed: A, crop: broccoli, from: 2028-05-15, harvest: [2028-07-17, "
                  "2028-08-07], to: 2028-08-07, ending: harvested-cut}}\n",
                  cover));
  std::string text;
  const check::Judgement judged = ground.judge();
  for (const auto& finding : judged.findings.all()) {
    if (finding.id != "family-break") continue;
    text += finding.message + "\n";
    for (const auto& related : finding.related) text += "  " + related.message + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("mixtures: the break of a part is the mixture's, whatever its share") {
  const std::string alone = told_after("radish-oilseed");
  CHECK(alone.find("broccoli after 0 seasons without") != std::string::npos);
  const std::string mixed = told_after("oat-pea-radish");
  CHECK(mixed.find("broccoli after 0 seasons without") != std::string::npos);
  CHECK(mixed.find("stood here") != std::string::npos);
  CHECK(told_after("oat-pea") == "");
}
