#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include <fmt/format.h>

#include "support/judged.h"

// Every way out that the checker names is applied to the plan, which is then judged again: the
// finding must be gone and no error may have come.
using namespace aftercrop;
using diagnostic::Severity;

namespace {

/// Six beds and a plan of stands drawn at random: most break some rule.
std::string garden_text(std::size_t kind) {
  static const char* const kPlaces[] = {"minneapolis", "seattle", "atlanta", "melbourne"};
  return fmt::format(
      "garden: Trial\nsite: {{climate: {}}}\nunits: metric\nseasons: {{from: 2027-03-01, years: "
      "3}}\n"
      "beds:\n  - {{beds: [A, B, C, D, E, F], length: 6 m, width: 1 m}}\n"
      "history:\n"
      "  - {{bed: A, crop: tomato, from: 2026-05-25, to: 2026-09-28}}\n"
      "  - {{bed: B, crop: cabbage-late, from: 2026-06-01, to: 2026-10-12}}\n"
      "  - {{bed: C, crop: onion-bulb, from: 2026-04-13, to: 2026-08-17}}\n"
      "  - {{bed: D, crop: pea-shell, from: 2026-04-13, to: 2026-07-13}}\n"
      "sightings:\n  - {{bed: A, disease: verticillium-wilt, date: 2026-08-15}}\n"
      "  - {{bed: B, disease: clubroot, date: 2026-09-15}}\n",
      kPlaces[kind % 4]);
}

std::string plan_text(support::Stream& random) {
  static const char* const kCrops[] = {"tomato",    "potato",        "kale",          "broccoli",
                                       "carrot",    "lettuce-leaf",  "onion-bulb",    "pea-shell",
                                       "bush-bean", "squash-winter", "sweet-corn",    "spinach",
                                       "rye",       "hairy-vetch",   "mustard-brown", "buckwheat"};
  static const char* const kEndings[] = {"", ", ending: incorporated",
                                         ", ending: harvested-pulled"};
  std::string text = "plan: drawn\nplantings:\n";
  for (const char bed : {'A', 'B', 'C', 'D', 'E', 'F'}) {
    for (int year = 2027; year < 2030; ++year) {
      if (random.below(4) == 0) continue;
      const std::string crop = kCrops[random.below(16)];
      const auto month = 3 + random.below(6);
      const auto day = 1 + random.below(28);
      text += fmt::format("  - {{bed: {}, crop: {}, from: {}-{:02}-{:02}{}}}\n", bed, crop, year,
                          month, day, kEndings[random.below(3)]);
    }
  }
  return text;
}

garden::Plan applied(const garden::Plan& plan, const check::WayOut& way) {
  garden::Plan out;
  out.name = plan.name;
  out.made_by = plan.made_by;
  for (const garden::Planting& one : plan.plantings) {
    const bool gone = std::any_of(way.changes.begin(), way.changes.end(),
                                  [&](const check::Change& c) { return c.gives_way == &one; });
    if (!gone) out.plantings.push_back(one);
  }
  for (const check::Change& change : way.changes) out.plantings.push_back(change.instead);
  std::stable_sort(out.plantings.begin(), out.plantings.end(),
                   [](const garden::Planting& a, const garden::Planting& b) {
                     return std::pair(a.bed, a.from) < std::pair(b.bed, b.from);
                   });
  return out;
}

int errors_of(const check::Judgement& judgement) {
  return judgement.findings.count(Severity::Error);
}

/// Findings of the rule about the stands that the way put there.
int still_told(const check::Judgement& judgement, const check::Cure& cure,
               const garden::Garden& garden) {
  int told = 0;
  for (const auto& one : judgement.findings.all()) {
    if (one.id != garden::card(cure.rule).name || one.severity < Severity::Warning) continue;
    for (const check::Change& change : cure.way.changes) {
      const bool about = one.bed == garden.bed(change.instead.bed).name &&
                         one.week == calendar::week_of(change.instead.from);
      told += about ? 1 : 0;
    }
    told += one.bed == garden.bed(cure.bed).name && one.week == cure.week ? 1 : 0;
  }
  return told;
}

}  // namespace

TEST_CASE("ways out: 200 of them applied to random plans clear their finding and bring no error") {
  support::Stream random(20270301);
  int applied_ways = 0;
  std::map<std::string, int> by_rule;
  std::set<check::WayOut::Kind> kinds;
  for (std::size_t round = 0; round < 60 && applied_ways < 200; ++round) {
    support::Ground ground = support::ground_of(garden_text(round), plan_text(random));
    const check::Judgement before = ground.judge();
    for (const check::Cure& cure : before.cures) {
      const std::string words = std::string(garden::card(cure.rule).name) + ": " + cure.way.words;
      CAPTURE(words);
      CAPTURE(round);
      const check::Judgement after = ground.judge(applied(ground.plan, cure.way));
      CHECK(still_told(after, cure, ground.garden()) == 0);
      CHECK(errors_of(after) <= errors_of(before));
      ++applied_ways;
      ++by_rule[std::string(garden::card(cure.rule).name)];
      kinds.insert(cure.way.kind);
    }
  }
  CHECK(applied_ways >= 200);
  CHECK(by_rule.size() >= 8);
  CHECK(kinds.size() >= 5);
}

TEST_CASE(
    "ways out: a free bed is named where the family was not, and the words say what was tried") {
  const auto ground = support::ground_of(
      "garden: Two\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
      "years: 1}\n"
      "beds:\n  - {beds: [A, B], length: 6 m, width: 1 m}\n"
      "history:\n  - {bed: A, crop: tomato, from: 2026-05-25, to: 2026-09-28}\n",
      "plan: p\nplantings:\n  - {bed: A, crop: potato, from: 2027-05-03, to: 2027-08-23}\n");
  const check::Judgement judgement = ground.judge();
  bool told = false;
  for (const auto& one : judgement.findings.all()) {
    if (one.id != "family-break") continue;
    told = true;
    CHECK(one.help.find("bed B on the same dates: tried") != std::string::npos);
  }
  CHECK(told);
}

TEST_CASE("ways out: the earliest open week is named for what is set out too soon") {
  const auto ground = support::ground_of(
      "garden: One\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
      "years: 1}\n"
      "beds:\n  - {beds: [A], length: 6 m, width: 1 m}\n",
      "plan: p\nplantings:\n  - {bed: A, crop: tomato, from: 2027-05-03, to: 2027-09-20}\n");
  const check::Judgement judgement = ground.judge();
  const auto found =
      std::find_if(judgement.cures.begin(), judgement.cures.end(),
                   [](const auto& one) { return one.rule == garden::RuleId::SownOutOfWindow; });
  REQUIRE((found != judgement.cures.end()));
  const check::Cure& cure = *found;
  CHECK(cure.way.kind == check::WayOut::Kind::Moved);
  // One week sooner it would not be allowed.
  garden::Plan sooner = applied(ground.plan, cure.way);
  sooner.plantings.front().from = sooner.plantings.front().from.plus_days(-7);
  bool again = false;
  const check::Judgement once_more = ground.judge(sooner);
  for (const auto& one : once_more.findings.all()) {
    again = again || one.id == "sown-out-of-window";
  }
  CHECK(again);
}

TEST_CASE("ways out: none is invented where nothing helps") {
  const auto ground = support::ground_of(
      "garden: One\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
      "years: 1}\n"
      "beds:\n  - {beds: [A], length: 6 m, width: 1 m}\n"
      "history:\n  - {bed: A, crop: tomato, from: 2026-05-25, to: 2026-09-28}\n",
      "plan: p\nplantings:\n  - {bed: A, crop: potato, from: 2027-05-03, to: 2027-08-23}\n");
  const check::Judgement judgement = ground.judge();
  for (const check::Cure& cure : judgement.cures) {
    CHECK((cure.rule != garden::RuleId::FamilyBreak));
  }
  for (const auto& one : judgement.findings.all()) {
    if (one.id != "family-break") continue;
    CHECK(one.help.find("no change of one stand that was tried clears it") != std::string::npos);
  }
}
