#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "aftercrop/ledger/walk.h"
#include "support/lived_bed.h"

using namespace aftercrop;
using calendar::Week;
using ledger::BedState;

namespace {

std::string any_climate() {
  return support::kClimates[static_cast<std::size_t>(support::pick(0, 6))];
}

/// One week after the other, each by itself.
void crawl(const ledger::BedLedger& ledger, BedState& state, const ledger::Stand* stand,
           Week until) {
  while (state.week < until) ledger.step(state, stand, nullptr);
}

}  // namespace

TEST_CASE("ledger: week by week is the same as one stride") {
  CHECK(rc::check("step against advance", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::any_garden(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    BedState strides = ledger.opening();
    BedState steps = strides;
    for (const garden::Planting& planting : support::any_plantings()) {
      const ledger::Stand stand = ledger.make_stand(ledger::spec_of(planting));
      ledger.idle(strides, stand.spec.weeks.first);
      ledger.advance(strides, stand);
      crawl(ledger, steps, nullptr, stand.spec.weeks.first);
      crawl(ledger, steps, &stand, stand.spec.weeks.past);
      RC_ASSERT(strides == steps);
    }
  }));
}

TEST_CASE("ledger: a journal changes nothing") {
  CHECK(rc::check("with and without a journal", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::any_garden(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    const auto plantings = support::any_plantings();
    std::vector<const garden::Planting*> order;
    for (const garden::Planting& one : plantings) order.push_back(&one);
    BedState silent = ledger.opening();
    BedState noted = silent;
    nitrogen::Journal journal;
    ledger::WalkOptions options;
    options.until = garden.seasons.past;
    ledger::walk(ledger, silent, order, options);
    options.journal = &journal;
    ledger::walk(ledger, noted, order, options);
    RC_ASSERT(silent == noted);
    RC_ASSERT(!journal.postings().empty());
  }));
}

TEST_CASE("ledger: no pool and no load is ever negative, no load above its ceiling") {
  CHECK(rc::check("signs", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::any_garden(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    BedState state = ledger.opening();
    const auto look = [&] {
      for (std::size_t i = 0; i < nitrogen::kPools; ++i) {
        RC_ASSERT(state.pools.at(static_cast<nitrogen::Pool>(i)) >= -1e-9);
      }
      RC_ASSERT(state.pools.fresh >= -1e-9);
      RC_ASSERT(state.pools.fresh <= state.pools.mineral + 1e-9);
      for (std::size_t i = 0; i < state.loads.size(); ++i) {
        const double ceiling = support::embedded().pathogen(ledger.tracked()[i]).ceiling;
        RC_ASSERT(state.loads[i].central >= 0.0);
        RC_ASSERT(state.loads[i].cautious >= state.loads[i].central - 1e-9);
        RC_ASSERT(state.loads[i].cautious <= ceiling + 1e-9);
      }
    };
    for (const garden::Planting& planting : support::any_plantings()) {
      const ledger::Stand stand = ledger.make_stand(ledger::spec_of(planting));
      while (state.week < stand.spec.weeks.past) {
        const bool here = state.week >= stand.spec.weeks.first;
        ledger.step(state, here ? &stand : nullptr, nullptr);
        look();
      }
    }
  }));
}

TEST_CASE("ledger: a week that two stands touch belongs to the later one") {
  garden::Garden garden = support::one_bed("minneapolis");
  const ledger::BedLedger ledger = support::ledger_of(garden, "minneapolis");
  const Week start = *calendar::parse_week("2027-W18");
  const auto lettuce = *support::embedded().find_crop("lettuce-leaf");
  const auto early = support::planted(lettuce, start, 10, catalogue::Ending::HarvestedCut);
  const auto late =
      support::planted(lettuce, start + calendar::Weeks(8), 10, catalogue::Ending::HarvestedCut);
  garden::Plan plan;
  plan.plantings = {early, late};
  const auto account = ledger::account(ledger, garden, plan);
  REQUIRE(account.stands.size() == 2);
  CHECK(account.stands[0].stand.spec.weeks.past == start + calendar::Weeks(8));
  CHECK(account.stands[1].stand.spec.weeks.first == start + calendar::Weeks(8));
}

TEST_CASE("ledger: the weeks of need add up to the stand's demand") {
  CHECK(rc::check("need", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::one_bed(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    const garden::Planting planting = support::any_plantings().front();
    const ledger::Stand stand = ledger.make_stand(ledger::spec_of(planting));
    double sum = 0.0;
    for (const double need : stand.need) {
      RC_ASSERT(need >= -1e-9);
      sum += need;
    }
    const bool lasts =
        support::embedded().crop(planting.crop).perennial() && stand.need.size() > 52;
    if (!lasts) RC_ASSERT(std::abs(sum - stand.demand.total()) < 1e-6);
  }));
}
