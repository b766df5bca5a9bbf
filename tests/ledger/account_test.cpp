#include "aftercrop/ledger/account.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <array>
#include <cmath>

#include "support/lived_bed.h"

using namespace aftercrop;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

struct Lived {
  std::string climate;
  garden::Garden garden;
  garden::Plan plan;
};

Lived any_life() {
  Lived life;
  life.climate = support::kClimates[static_cast<std::size_t>(support::pick(0, 6))];
  life.garden = support::any_garden(life.climate);
  life.plan.plantings = support::any_plantings();
  return life;
}

ledger::BedAccount account_of(const Lived& life) {
  return ledger::account(support::ledger_of(life.garden, life.climate), life.garden, life.plan);
}

bool internal(Cause cause) {
  return cause == Cause::ResidueRelease || cause == Cause::SlowRelease || cause == Cause::Uptake ||
         cause == Cause::MulchDugIn || cause == Cause::MulchRelease;
}

}  // namespace

TEST_CASE("account: each pool closes at its opening and its postings") {
  CHECK(rc::check("pool by pool", [] {
    const Lived life = any_life();
    const ledger::BedAccount account = account_of(life);
    std::array<double, nitrogen::kPools> sums{};
    for (const auto& one : account.postings) {
      sums[static_cast<std::size_t>(one.pool)] += one.kg_per_ha;
    }
    for (std::size_t i = 0; i < sums.size(); ++i) {
      const auto pool = static_cast<Pool>(i);
      RC_ASSERT(std::abs(account.opening.at(pool) + sums[i] - account.closing.at(pool)) < 1e-9);
    }
  }));
}

TEST_CASE("account: moving nitrogen inside the bed neither makes nor loses any (N50)") {
  // Tie-up is a demand, not nitrogen: it is left out. What crosses the bed's border is all that the
  // sum of the other five pools may change by.
  CHECK(rc::check("whole account", [] {
    const Lived life = any_life();
    const ledger::BedAccount account = account_of(life);
    double inside = 0.0;
    double border = 0.0;
    for (const auto& one : account.postings) {
      if (one.pool == Pool::TieUp) continue;
      (internal(one.cause) ? inside : border) += one.kg_per_ha;
    }
    RC_ASSERT(std::abs(inside) < 1e-9);
    const auto held = [](const nitrogen::Pools& pools) {
      return pools.mineral + pools.fast + pools.mulch + pools.slow + pools.crop;
    };
    RC_ASSERT(std::abs(held(account.closing) - held(account.opening) - border) < 1e-9);
  }));
}

TEST_CASE("account: what the stands' sums say is what was posted") {
  CHECK(rc::check("flows and postings", [] {
    Lived life = any_life();
    life.garden.seasons.past = life.garden.seasons.first;  // nothing after the last stand
    const ledger::BedAccount account = account_of(life);
    nitrogen::WeekFlows sums;
    double harvested = 0.0;
    for (const auto& line : account.stands) {
      sums += line.outcome.flows;
      harvested += line.outcome.harvested;
    }
    double taken = 0.0;
    double fixed = 0.0;
    double bought = 0.0;
    double picked = 0.0;
    for (const auto& one : account.postings) {
      if (one.pool != Pool::Crop) continue;
      taken += one.cause == Cause::Uptake ? one.kg_per_ha : 0.0;
      fixed += one.cause == Cause::Fixation ? one.kg_per_ha : 0.0;
      bought += one.cause == Cause::Bought ? one.kg_per_ha : 0.0;
      picked -= one.cause == Cause::Harvest ? one.kg_per_ha : 0.0;
    }
    RC_ASSERT(std::abs(sums.taken_up - taken) < 1e-9);
    RC_ASSERT(std::abs(sums.fixed - fixed) < 1e-9);
    RC_ASSERT(std::abs(sums.bought - bought) < 1e-9);
    RC_ASSERT(std::abs(harvested - picked) < 1e-9);
  }));
}

TEST_CASE("account: a bed with nothing in it gains what falls and rots and loses what drains") {
  const garden::Garden garden = support::one_bed("utrecht");
  const auto account =
      ledger::account(support::ledger_of(garden, "utrecht"), garden, garden::Plan());
  double drained = 0.0;
  double gained = 0.0;
  for (const auto& one : account.postings) {
    drained -= one.cause == Cause::Leaching ? one.kg_per_ha : 0.0;
    gained +=
        one.cause == Cause::SoilSupply || one.cause == Cause::Deposition ? one.kg_per_ha : 0.0;
  }
  CHECK(account.stands.empty());
  // three years of 3 % organic matter: 3 x (126 + 6) within a quarter
  CHECK(gained == doctest::Approx(396).epsilon(0.25));
  CHECK(drained > 0.5 * gained);  // a wet oceanic winter without a crop
  CHECK(account.closing.crop == 0.0);
}
