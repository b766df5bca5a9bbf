#include <fmt/format.h>

#include <string>

#include "support/judged.h"

// A mixture of covers is of the kin of each of its parts.
using namespace aftercrop;

namespace {

/// Findings of one rule in two stands of a bed in Minneapolis, a line each.
std::string told_of(const std::string& rule, const std::string& cover, const std::string& after) {
  const support::Ground ground = support::ground_of(
      "garden: one bed\nsite: {climate: minneapolis}\nunits: metric\n"
      "seasons: {from: 2027-03-01, years: 2}\n"
      "beds:\n  - {beds: [A], length: 6 m, width: 1 m, soil: loam}\n",
      fmt::format("plan: a cover, then food\nplantings:\n  - {{bed: A, {}}}\n  - {{bed: A, {}}}\n",
                  cover, after));
  const check::Judgement judged = ground.judge();
  std::string text;
  for (const auto& finding : judged.findings.all()) {
    if (finding.id != rule) continue;
    text += finding.message + "\n";
    for (const auto& related : finding.related) text += "  " + related.message + "\n";
  }
  return text;
}

/// What the family rule says of broccoli in the spring after a cover of one autumn.
std::string told_after(const std::string& cover) {
  return told_of("family-break",
                 "crop: " + cover + ", from: 2027-08-16, to: 2027-12-06, ending: winterkilled",
                 "crop: broccoli, from: 2028-05-15, harvest: [2028-07-17, 2028-08-07], to: "
                 "2028-08-07, ending: harvested-cut");
}

/// What is missing before sweet corn after a cover of one winter.
std::string missed_after(const std::string& cover) {
  return told_of("legume-before-heavy-feeder",
                 "crop: " + cover + ", from: 2027-09-06, to: 2028-05-29, ending: cut-roots-left",
                 "crop: sweet-corn, from: 2028-06-05, harvest: [2028-08-21, 2028-09-04], to: "
                 "2028-09-04, ending: harvested-cut");
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

TEST_CASE("mixtures: a legume that frost takes before it is of use readies no bed") {
  CHECK(missed_after("hairy-vetch") == "");
  CHECK(missed_after("rye-vetch") == "");
  CHECK(missed_after("crimson-clover") != "");
  CHECK(missed_after("rye-clover") == missed_after("crimson-clover"));
}
