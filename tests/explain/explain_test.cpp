#include "aftercrop/explain/explain.h"

#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "aftercrop/emit/explain.h"
#include "aftercrop/sequencer/appraisal.h"
#include "support/judged.h"

using namespace aftercrop;
using explain::Reason;

namespace {

const char* const kGarden =
    "garden: Two\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, years: "
    "1}\n"
    "beds:\n  - {beds: [A, B], length: 6 m, width: 1 m}\n"
    "history:\n  - {bed: B, crop: tomato, from: 2026-05-25, to: 2026-09-28}\n"
    "wants:\n  - {crop: bush-bean, amount: 6 m2, harvest: [07-01, 09-20]}\n"
    "  - {crop: carrot, amount: 6 m2, harvest: [07-01, 10-10]}\n"
    "  - {crop: potato, amount: 6 m2, harvest: [07-15, 09-30]}\n";

const char* const kPlan =
    "plan: p\nplantings:\n"
    "  - {bed: A, crop: bush-bean, from: 2027-06-07, harvest: [2027-07-26, 2027-08-16], to: "
    "2027-08-16}\n"
    "  - {bed: A, crop: rye, from: 2027-09-06, to: 2028-05-01, ending: incorporated}\n";

explain::Explanation asked(const support::Ground& ground, const char* bed, const char* week,
                           const char* crop = nullptr) {
  explain::Question question{ground.bed(bed), *calendar::parse_week(week), {}};
  if (crop != nullptr) question.crop = ground.crop(crop);
  return explain::explain(ground.garden(), ground.rows(), *ground.climates, ground.plan, question);
}

bool says(const explain::Explanation& told, Reason::Kind kind, const std::string& part) {
  for (const Reason& reason : told.reasons) {
    if (reason.kind == kind && reason.words.find(part) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("explain: a stand serves its want, and taking it away is what it is worth") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto told = asked(ground, "A", "2027-W25");
  REQUIRE(told.stands != nullptr);
  CHECK(ground.rows().crop(told.stands->crop).id == "bush-bean");
  CHECK(says(told, Reason::Kind::Want, "bush bean"));
  CHECK(says(told, Reason::Kind::Window, "2027-"));
  // By hand: value of the plan less value of the plan without that row.
  garden::Plan without = ground.plan;
  without.plantings.erase(without.plantings.begin());
  const sequencer::Appraisal full(ground.garden(), ground.rows(), *ground.climates, ground.plan);
  const sequencer::Appraisal less(ground.garden(), ground.rows(), *ground.climates, without);
  CHECK(told.share_of_value * std::abs(told.plan_value) ==
        doctest::Approx(full.whole().total() - less.whole().total()));
  CHECK(told.plan_value == doctest::Approx(full.whole().total()));
}

TEST_CASE("explain: what else could stand is allowed, fits, and is ranked by value") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto told = asked(ground, "A", "2027-W25");
  REQUIRE(told.others.size() > 3);
  for (std::size_t i = 0; i < told.others.size(); ++i) {
    const explain::Option& option = told.others[i];
    CHECK(option.allowed);
    CHECK(garden::weeks_of(option.planting).past <= told.room.past);
    CHECK(garden::weeks_of(option.planting).first >= told.room.first);
    if (i > 0) CHECK(option.value_change <= told.others[i - 1].value_change + 1e-9);
  }
  // Carrots are wanted as much and nobody grows them: they come before every cover.
  CHECK(ground.rows().crop(told.others.front().planting.crop).id != "rye");
  // The first option judged by the checker itself brings no error.
  garden::Plan other = ground.plan;
  other.plantings.front() = told.others.front().planting;
  CHECK(ground.judge(other).findings.count(diagnostic::Severity::Error) == 0);
}

TEST_CASE("explain: why not a crop whose family was here last year") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto told = asked(ground, "B", "2027-W20", "potato");
  CHECK(told.stands == nullptr);
  REQUIRE(told.asked.has_value());
  CHECK_FALSE(told.asked->allowed);
  bool named = false;
  for (const auto& one : told.asked->findings) named = named || one.id == "family-break";
  CHECK(named);
  for (const explain::Option& option : told.others) {
    CHECK(ground.rows().crop(option.planting.crop).id != "potato");
  }
}

TEST_CASE("explain: idle ground says whether something better fits") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto told = asked(ground, "B", "2027-W20");
  REQUIRE_FALSE(told.others.empty());
  CHECK(says(told, Reason::Kind::Idle,
             told.others.front().value_change > 0.0 ? "could be better" : "none makes"));
}

TEST_CASE("explain: a winter cover is there for the ground") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto told = asked(ground, "A", "2027-W45");
  REQUIRE(told.stands != nullptr);
  CHECK(says(told, Reason::Kind::Winter, "bare"));
  CHECK(says(told, Reason::Kind::Nitrogen, "washed out"));
}

TEST_CASE("explain: what a whole plan is told of its stands, a question about each tells too") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto accounts =
      check::judge(ground.garden(), ground.rows(), *ground.climates, ground.plan).accounts;
  const explain::PlanReasons of_plan =
      explain::reasons_of_plan(ground.garden(), ground.rows(), accounts);
  REQUIRE(of_plan.size() == 3);
  for (const auto& [planting, reasons] : of_plan) {
    const std::string week = calendar::text(calendar::week_of(planting->from));
    const auto told = asked(ground, ground.garden().bed(planting->bed).name.c_str(), week.c_str());
    CAPTURE(ground.rows().crop(planting->crop).id);
    CHECK_FALSE(reasons.empty());
    for (const Reason& reason : reasons) CHECK(says(told, reason.kind, reason.words));
  }
}

TEST_CASE("explain: text has no control characters and json has the keys that are promised") {
  const auto ground = support::ground_of(kGarden, kPlan);
  for (const char* week : {"2027-W25", "2027-W35", "2027-W45"}) {
    const auto told = asked(ground, "A", week, "potato");
    const emit::Explained explained{ground.garden(), ground.rows(),
                                    ground.climates->of(garden::Shelter::Open), told,
                                    ground.crop("potato")};
    const std::string text = emit::explain_text(explained, 80);
    for (const char c : text) CHECK((c == '\n' || static_cast<unsigned char>(c) >= 0x20));
    const auto json = nlohmann::json::parse(emit::explain_json(explained));
    for (const char* key : {"bed", "week", "stands", "reasons", "others"}) {
      CAPTURE(std::string(key));
      CHECK(json.contains(key));
    }
    for (const auto& other : json["others"]) {
      for (const char* key : {"crop", "from", "value_change", "nitrogen_change_g", "findings"}) {
        CHECK(other.contains(key));
      }
    }
  }
}
