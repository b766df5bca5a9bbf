#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "aftercrop/check/check.h"
#include "aftercrop/load/load.h"

// Successions and whole rotations that publications recommend or warn of, judged by the checker
// with the embedded rows: those recommended must pass without an error of family or disease, those
// warned of must be caught by the right rule.
using namespace aftercrop;
using diagnostic::Severity;

namespace {

struct Seen {
  const char* disease;
  const char* date;
  garden::SightingSeverity severity = garden::SightingSeverity::Some;
};

/// What the checker says of one plan.
struct Verdict {
  std::vector<diagnostic::Diagnostic> findings;

  [[nodiscard]] int count(const std::string& rule, Severity least) const {
    int number = 0;
    for (const auto& one : findings) number += one.id == rule && one.severity >= least ? 1 : 0;
    return number;
  }
  [[nodiscard]] bool warns(const std::string& rule) const {
    return count(rule, Severity::Warning) > 0;
  }
  [[nodiscard]] bool refuses(const std::string& rule) const {
    return count(rule, Severity::Error) > 0;
  }
  /// Everything that rules of succession say at a severity or above, for the failure message.
  [[nodiscard]] std::string successions(Severity least) const {
    std::string all;
    for (const auto& one : findings) {
      const bool kind = one.id == "family-break" || one.id == "host-return" ||
                        one.id == "prone-on-infected" || one.id == "plant-back";
      if (kind && one.severity >= least) all += one.bed + " " + one.id + ": " + one.message + "\n";
    }
    return all;
  }
};

Verdict judged(const std::string& stands, const std::vector<Seen>& sightings = {}) {
  const std::string text = "plan: proof\nsite: {climate: boston}\n" + stands;
  const load::ReadText read = [&](const std::string&) -> load::TextOrReason { return {text, {}}; };
  diagnostic::Diagnostics said;
  auto proposal = load::load_proposal("plan.yaml", load::embedded_catalogue(), read, said);
  std::string trouble;
  for (const auto& one : said.all()) {
    if (one.severity == Severity::Error) trouble += one.id + ": " + one.message + "\n";
  }
  REQUIRE_MESSAGE(proposal.has_value(), trouble);
  garden::Garden& garden = proposal->garden.garden;
  const catalogue::Catalogue& rows = proposal->garden.catalogue;
  for (const Seen& one : sightings) {
    garden::Sighting sighting;
    sighting.bed = garden::BedId(0);
    sighting.disease = *rows.find_pathogen(one.disease);
    sighting.date = *calendar::Date::parse(one.date);
    sighting.severity = one.severity;
    garden.sightings.push_back(sighting);
  }
  const ledger::SiteClimates climates(garden, rows);
  const auto judgement = check::judge(garden, rows, climates, proposal->plan);
  return {judgement.findings.all()};
}

/// One bed, one entry a year from `first` on; "-" is a year without a stand.
Verdict years(int first, const std::vector<std::string>& crops,
              const std::vector<Seen>& sightings = {}) {
  std::string listed;
  std::string sown;
  for (std::size_t i = 0; i < crops.size(); ++i) {
    if (crops[i] == "-") continue;
    listed += (listed.empty() ? "" : ", ") + std::to_string(first + static_cast<int>(i));
    sown += (sown.empty() ? "" : ", ") + crops[i];
  }
  return judged("rotation:\n  years: [" + listed + "]\n  beds: {A: [" + sown + "]}\n", sightings);
}

/// A cycle in as many beds as it has steps, so that each step comes round in one of them.
Verdict cycle(const std::string& steps, const std::string& beds) {
  return judged("rotation:\n  cycle: [" + steps + "]\n  beds: " + beds + "\n");
}

}  // namespace

TEST_CASE("rotations D46: Coleman's eight years pass without a word on families") {
  // Coleman, The New Organic Grower: nightshades 3 seasons off, peas and beans 7, the rest 7.
  const Verdict verdict = cycle(
      "potato, squash-winter, carrot + beet, bush-bean, tomato, pea-shell, cabbage-late, "
      "sweet-corn",
      "A..H");
  CHECK(verdict.successions(Severity::Warning) == "");
}

TEST_CASE(
    "rotations D47: the three-bed garden passes the least break and is warned of the longer") {
  // Royal Horticultural Society: potatoes; legumes, onions, roots; brassicas: every family 2 off.
  const Verdict verdict = cycle("potato, pea-shell + onion-bulb + carrot, cabbage-late", "A..C");
  CHECK(verdict.successions(Severity::Error) == "");
  CHECK(verdict.count("family-break", Severity::Warning) >= 3);
}

TEST_CASE("rotations D48: four beds, Harrod Horticultural") {
  // Legumes, brassicas, potatoes, alliums and roots: 3 seasons off everywhere.
  const Verdict verdict = cycle("pea-shell, cabbage-late, potato, onion-bulb + carrot", "A..D");
  CHECK(verdict.successions(Severity::Warning) == "");
}

TEST_CASE("rotations R4: four organic beds") {
  // sustainablegarden.co.uk: potatoes, legumes, brassicas, roots and alliums: 3 seasons off.
  const Verdict verdict =
      cycle("potato, pea-shell + bush-bean, cabbage-late + chard, carrot + garlic", "A..D");
  CHECK(verdict.successions(Severity::Error) == "");
}

TEST_CASE("rotations D40, D41, D42, D44: good forecrops draw no finding") {
  // Coleman: potatoes after corn, corn after brassicas, roots after squash. Pacific Northwest
  // Handbook: beans after 3 years of grass or grain.
  const std::vector<std::vector<std::string>> good = {{"sweet-corn", "potato"},
                                                      {"cabbage-late", "sweet-corn"},
                                                      {"squash-winter", "carrot"},
                                                      {"squash-winter", "beet"},
                                                      {"bush-bean", "-", "-", "-", "bush-bean"}};
  for (const auto& pair : good) {
    CAPTURE(pair.front());
    CAPTURE(pair.back());
    CHECK(years(2027, pair).successions(Severity::Warning) == "");
  }
}

TEST_CASE("rotations D28: strawberries two years after tomatoes") {
  // Ohio State fact sheet as quoted: no strawberries for 5 years after tomato, potato, pepper,
  // eggplant, melon, okra, mint or brambles: Verticillium.
  CHECK(years(2026, {"tomato", "-", "strawberry"}).warns("host-return"));
  const std::vector<Seen> wilted = {{"verticillium-wilt", "2026-08-15"}};
  CHECK(years(2026, {"tomato", "-", "strawberry"}, wilted).refuses("prone-on-infected"));
}

TEST_CASE("rotations D29, D31, D37, D38: families back too soon") {
  // University of Connecticut IPM: eggplant 4 years after tomato, pumpkin 2 after melon. Pacific
  // Northwest Handbook: no spinach in consecutive years; onion 3-6 years off for pink root.
  struct Row {
    std::vector<std::string> crops;
    const char* why;
  };
  const Row rows[] = {{{"tomato", "-", "aubergine"}, "one season off of two"},
                      {{"spinach", "spinach"}, "none of one"},
                      {{"melon", "pumpkin"}, "none of one"},
                      {{"onion-bulb", "-", "onion-bulb"}, "one of two"}};
  for (const Row& row : rows) {
    CAPTURE(std::string(row.why));
    CAPTURE(row.crops.back());
    CHECK(years(2026, row.crops).refuses("family-break"));
  }
}

TEST_CASE("rotations D30: cabbage four seasons after a radish with clubroot") {
  // University of Connecticut IPM: 7 years. Load 2 x 2^(-4.2/3.6) = 0.9: advised against.
  const std::vector<Seen> clubbed = {{"clubroot", "2025-06-15"}};
  const Verdict verdict = years(2025, {"radish", "-", "-", "-", "-", "cabbage-late"}, clubbed);
  CHECK(verdict.count("prone-on-infected", Severity::Note) > 0);
  CHECK(verdict.count("host-return", Severity::Note) > 0);
  CHECK_FALSE(verdict.refuses("family-break"));
}

TEST_CASE("rotations D32, D34: a disease that was seen binds other families") {
  // Pacific Northwest Handbook: no beets after potatoes on scab land. University of Connecticut:
  // white mould, several years without lettuce, bean, tomato, potato, cabbage.
  CHECK(years(2026, {"potato", "beet"}, {{"common-scab", "2026-08-15"}}).warns("host-return"));
  const Verdict mould = years(2026, {"lettuce-head", "bush-bean"}, {{"white-mould", "2026-07-15"}});
  CHECK(mould.warns("host-return"));
  CHECK(mould.count("prone-on-infected", Severity::Warning) > 0);
  CHECK(years(2026, {"potato", "beet"}).successions(Severity::Warning) == "");
}

TEST_CASE("rotations D33, D39: what stays in the ground for decades") {
  // University of Connecticut: asparagus "indefinitely". UC IPM: white rot over 20 years.
  const Verdict garlic = judged(
      "plantings:\n"
      "  - {bed: A, crop: garlic, from: 2026-10-15, to: 2027-07-15}\n"
      "  - {bed: A, crop: leek, from: 2037-06-01, to: 2037-11-01}\n",
      {{"white-rot-onion", "2027-06-15", garden::SightingSeverity::Severe}});
  CHECK(garlic.refuses("prone-on-infected"));
}

TEST_CASE("rotations D35, D36: sorghum-sudangrass kills what is planted into it") {
  // Summers et al. 2009, Calif. Agric. 63:35: 50-75 % of tomato, lettuce and broccoli plants died
  // in it left as mulch; wait 6 to 8 weeks.
  const std::string cover =
      "plantings:\n  - {bed: A, crop: sorghum-sudan, from: 2026-06-01, to: 2026-07-27, ending: ";
  CHECK(judged(cover + "cut-roots-left}\n"
                       "  - {bed: A, crop: broccoli, from: 2026-08-17, to: 2026-10-26}\n")
            .warns("plant-back"));
  CHECK_FALSE(judged(cover + "incorporated}\n"
                             "  - {bed: A, crop: broccoli, from: 2026-09-28, to: 2026-11-30}\n")
                  .warns("plant-back"));
}

TEST_CASE("rotations D50, D53: the same crop every year") {
  // MacNab and Zitter, Cornell: tomato every year fails. Persson et al. 1999: pea every year failed
  // in its second year on soil with Aphanomyces.
  CHECK(years(2026, {"tomato", "tomato", "tomato", "tomato"})
            .count("family-break", Severity::Error) == 3);
  const Verdict pea = years(2026, {"pea-shell", "pea-shell"}, {{"aphanomyces-pea", "2026-06-15"}});
  CHECK(pea.refuses("family-break"));
  CHECK(pea.refuses("prone-on-infected"));
}

TEST_CASE("rotations D54: three sowings of lettuce in one season are one occupation") {
  // Royal Horticultural Society: salads fit in anywhere; same-season successions are usual.
  const Verdict verdict = judged(
      "plantings:\n"
      "  - {bed: A, crop: lettuce-leaf, from: 2027-04-26, to: 2027-06-14}\n"
      "  - {bed: A, crop: lettuce-leaf, from: 2027-06-14, to: 2027-08-02}\n"
      "  - {bed: A, crop: lettuce-leaf, from: 2027-08-02, to: 2027-09-20}\n");
  CHECK(verdict.successions(Severity::Warning) == "");
}
