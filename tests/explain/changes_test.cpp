#include "aftercrop/explain/changes.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "aftercrop/sequencer/sequence.h"
#include "support/judged.h"

using namespace aftercrop;
using explain::PlanChange;

namespace {

const char* const kGarden =
    "garden: Three\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
    "years: 1}\n"
    "beds:\n  - {beds: [A, B, C], length: 6 m, width: 1 m}\n"
    "wants:\n  - {crop: bush-bean, amount: 6 m2, harvest: [07-01, 09-20]}\n"
    "  - {crop: carrot, amount: 6 m2, harvest: [07-01, 10-10]}\n"
    "  - {crop: kale, amount: 6 m2, harvest: [07-01, 10-31]}\n";

const char* const kPlan =
    "plan: p\nmade_by: aftercrop 0.1.0\nplantings:\n"
    "  - {bed: A, crop: bush-bean, from: 2027-05-24, harvest: [2027-07-12, 2027-08-02], to: "
    "2027-08-02, ending: failed}\n"
    "  - {bed: B, crop: carrot, from: 2027-05-03, harvest: [2027-07-19, 2027-08-09], to: "
    "2027-08-09, "
    "ending: harvested-pulled}\n"
    "  - {bed: C, crop: kale, from: 2027-07-05, harvest: [2027-08-30, 2027-10-25], to: 2027-10-25, "
    "ending: harvested-cut}\n";

const calendar::Date kDay = *calendar::Date::parse("2027-06-14");

sequencer::Outcome planned(const garden::Garden& garden, const support::Ground& ground) {
  sequencer::Stop stop;
  stop.within_seconds = 3600.0;
  stop.max_rounds = 20;
  return sequencer::sequence(garden, ground.rows(), *ground.climates, stop);
}

garden::Garden from_day(const support::Ground& ground, const explain::Resumed& resumed) {
  garden::Garden garden = ground.garden();
  garden.earlier = resumed.ahead;
  garden.seasons.first = calendar::week_of(kDay);
  for (const auto& done : resumed.done) garden.history.push_back(done);
  return garden;
}

}  // namespace

TEST_CASE("replanning: what began stays, what failed ends by the day, the rest is ahead") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto resumed = explain::resume(ground.plan, kDay);
  REQUIRE(resumed.done.size() == 2);
  REQUIRE(resumed.ahead.size() == 1);
  CHECK(resumed.done.front().to == kDay);
  CHECK_FALSE(resumed.done.front().harvest.has_value());
  CHECK(resumed.done.back().to == *calendar::Date::parse("2027-08-09"));
  CHECK(std::all_of(resumed.done.begin(), resumed.done.end(),
                    [](const auto& one) { return one.kept; }));
}

TEST_CASE("replanning: the lost beans are sown again, and the kale that can stay stays") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto resumed = explain::resume(ground.plan, kDay);
  const garden::Garden garden = from_day(ground, resumed);
  const auto outcome = planned(garden, ground);
  int beans = 0;
  bool kale = false;
  for (const garden::Planting& one : outcome.plan.plantings) {
    const std::string& id = ground.rows().crop(one.crop).id;
    beans += id == "bush-bean" && one.from >= kDay ? 1 : 0;
    kale = kale || (id == "kale" && one.bed == ground.bed("C") &&
                    one.from == *calendar::Date::parse("2027-07-05"));
  }
  CHECK(beans >= 1);
  CHECK(kale);
  const auto told =
      explain::changes(garden, ground.rows(), *ground.climates, resumed, outcome.plan);
  for (const PlanChange& change : told) {
    CHECK_FALSE(change.why.empty());
    CHECK(change.kind != PlanChange::Kind::Gone);
  }
  CHECK(outcome.bound.value_or(1e300) >= outcome.value.total() - 1e-6);
}

TEST_CASE("replanning: with nothing lost nothing changes that has no worth") {
  const auto ground = support::ground_of(kGarden, kPlan);
  garden::Plan whole = ground.plan;
  whole.plantings.front().ending = catalogue::Ending::HarvestedCut;
  const auto resumed = explain::resume(whole, kDay);
  const garden::Garden garden = from_day(ground, resumed);
  const auto outcome = planned(garden, ground);
  for (const PlanChange& change :
       explain::changes(garden, ground.rows(), *ground.climates, resumed, outcome.plan)) {
    CHECK(change.kind == PlanChange::Kind::New);  // idle weeks may be filled; nothing gives way
  }
}

TEST_CASE("replanning: dearer changes are never more") {
  const auto ground = support::ground_of(kGarden, kPlan);
  const auto resumed = explain::resume(ground.plan, kDay);
  std::size_t last = 1000;
  for (const double share : {0.0, 0.1, 5.0}) {
    garden::Garden garden = from_day(ground, resumed);
    garden.costs.change_share = share;
    const auto outcome = planned(garden, ground);
    const auto told =
        explain::changes(garden, ground.rows(), *ground.climates, resumed, outcome.plan);
    CAPTURE(share);
    CHECK(told.size() <= last);
    last = told.size();
  }
}
