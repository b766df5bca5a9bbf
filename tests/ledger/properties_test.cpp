#include <doctest/doctest.h>
#include <fmt/format.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "aftercrop/ledger/walk.h"
#include "support/embedded_garden.h"
#include "support/lived_bed.h"

// What holds for the two accounts whatever a garden grows.
using namespace aftercrop;
using calendar::Week;
using calendar::Weeks;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

std::string any_climate() {
  return support::kClimates[static_cast<std::size_t>(support::pick(0, 6))];
}

std::vector<const garden::Planting*> pointers(const std::vector<garden::Planting>& plantings) {
  std::vector<const garden::Planting*> all;
  for (const garden::Planting& one : plantings) all.push_back(&one);
  return all;
}

/// Lines of a garden in one order or another, with a bed line's keys shuffled.
std::string garden_text(const std::vector<int>& order, bool turned) {
  const std::vector<std::string> parts = {
      "site: {climate: utrecht}\n",
      "seasons: {from: 2027-03-01, years: 2}\n",
      turned ? "beds:\n  - {soil: loam, width: 1 m, organic_matter: 4 %, length: 5 m, bed: B}\n"
               "  - {length: 4 m, bed: A, ph: 6.2, width: 1 m, soil: clay}\n"
             : "beds:\n  - {bed: A, length: 4 m, width: 1 m, soil: clay, ph: 6.2}\n"
               "  - {bed: B, length: 5 m, width: 1 m, soil: loam, organic_matter: 4 %}\n",
      turned ? "history:\n"
               "  - {to: 2026-10-05, ending: harvested-pulled, from: 2026-05-11, crop: "
               "cabbage-late, bed: B}\n"
               "  - {ending: cut-roots-left, to: 2026-10-12, crop: faba-cover, bed: A, from: "
               "2026-07-06}\n"
             : "history:\n"
               "  - {bed: A, crop: faba-cover, from: 2026-07-06, to: 2026-10-12, ending: "
               "cut-roots-left}\n"
               "  - {bed: B, crop: cabbage-late, from: 2026-05-11, to: 2026-10-05, ending: "
               "harvested-pulled}\n",
      "amendments:\n  - {bed: B, date: 2027-04-05, material: compost, amount: 20 kg}\n",
      "sightings:\n  - {bed: B, disease: clubroot, date: 2026-08-10, severity: some}\n",
      "tests:\n  - {bed: A, date: 2027-03-15, nitrate_n: 8 ppm, depth: 30 cm}\n"};
  std::string text = "garden: Lot\n";
  for (const int place : order) text += parts[static_cast<std::size_t>(place)];
  return text;
}

}  // namespace

TEST_CASE("properties: by week, by planting or by year, the same to the last bit") {
  CHECK(rc::check("three ways", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::any_garden(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    const auto plantings = support::any_plantings();
    const auto order = pointers(plantings);
    ledger::WalkOptions options;
    options.until = garden.seasons.past;
    ledger::BedState whole = ledger.opening();
    ledger::walk(ledger, whole, order, options);
    // A year at a time: each walk takes the plantings that start before its end.
    ledger::BedState yearly = ledger.opening();
    std::size_t next = 0;
    for (Week end = garden.seasons.first + Weeks(52); end <= garden.seasons.past + Weeks(52);
         end = end + Weeks(52)) {
      std::vector<const garden::Planting*> part;
      while (next < order.size() && garden::weeks_of(*order[next]).first < end) {
        part.push_back(order[next++]);
      }
      options.until = std::min(end, garden.seasons.past);
      ledger::walk(ledger, yearly, part, options);
    }
    RC_ASSERT(whole == yearly);
  }));
}

TEST_CASE("properties: the order of keys and of beds in the file changes nothing") {
  const auto plain = support::embedded_garden(garden_text({0, 1, 2, 3, 4, 5, 6}, false));
  CHECK(rc::check("orders", [&] {
    std::vector<int> order = {0, 1, 2, 3, 4, 5, 6};
    for (std::size_t i = order.size(); i-- > 1;) {
      std::swap(order[i],
                order[static_cast<std::size_t>(support::pick(0, static_cast<int>(i) + 1))]);
    }
    const auto other = support::embedded_garden(garden_text(order, support::pick(0, 2) == 0));
    for (const char* bed : {"A", "B"}) {
      const auto ours = support::account_of(plain, bed);
      const auto theirs = support::account_of(other, bed);
      RC_ASSERT(ours.closing == theirs.closing);
      RC_ASSERT(ours.load_closing == theirs.load_closing);
      RC_ASSERT(ours.postings.size() == theirs.postings.size());
    }
  }));
}

TEST_CASE("properties: more organic matter never supplies less") {
  CHECK(rc::check("supply", [] {
    const std::string climate = any_climate();
    garden::Garden poor = support::one_bed(climate);
    poor.beds.front().watered = support::pick(0, 2) == 0;
    poor.beds.front().organic_matter_pct = support::pick(1, 100) / 10.0;
    garden::Garden rich = poor;
    rich.beds.front().organic_matter_pct += support::pick(1, 60) / 10.0;
    const auto supply = [&](const garden::Garden& garden) {
      double sum = 0.0;
      for (const auto& one :
           ledger::account(support::ledger_of(garden, climate), garden, {}).postings) {
        if (one.cause == Cause::SoilSupply) sum += one.kg_per_ha;
      }
      return sum;
    };
    RC_ASSERT(supply(rich) >= supply(poor) - 1e-9);
  }));
}

TEST_CASE("properties: a longer time without a host never leaves more of a disease") {
  CHECK(rc::check("rest", [] {
    const std::string climate = any_climate();
    garden::Garden garden = support::any_garden(climate);
    garden.tests.clear();
    for (garden::Sighting& seen : garden.sightings) {
      seen.date = calendar::monday(garden.seasons.first);  // all before the rest begins
    }
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    ledger::BedState state = ledger.opening();
    ledger.idle(state, state.week + Weeks(60));
    ledger::BedState later = state;
    ledger.idle(state, state.week + Weeks(support::pick(0, 40)));
    const Week until = state.week + Weeks(support::pick(0, 40));
    ledger.idle(later, until);
    for (std::size_t i = 0; i < state.loads.size(); ++i) {
      RC_ASSERT(later.loads[i].central <= state.loads[i].central + 1e-12);
      RC_ASSERT(later.loads[i].cautious <= state.loads[i].cautious + 1e-12);
    }
  }));
}

TEST_CASE("properties: a pulled legume never leaves more nitrogen than a cut one") {
  CHECK(rc::check("endings", [] {
    const std::string climate = any_climate();
    const garden::Garden garden = support::any_garden(climate);
    const ledger::BedLedger ledger = support::ledger_of(garden, climate);
    std::vector<catalogue::CropId> legumes;
    for (std::size_t i = 0; i < support::embedded().crops.size(); ++i) {
      if (support::embedded().crops[i].legume) legumes.emplace_back(i);
    }
    const auto crop =
        legumes[static_cast<std::size_t>(support::pick(0, static_cast<int>(legumes.size())))];
    const int weeks = support::pick(4, 60);
    const auto left = [&](catalogue::Ending ending) {
      ledger::BedState state = ledger.opening();
      const auto stand =
          ledger.make_stand(ledger::spec_of(support::planted(crop, state.week, weeks, ending)));
      ledger.advance(state, stand);
      return state.pools.mineral + state.pools.fast + state.pools.mulch + state.pools.slow;
    };
    const double pulled = left(catalogue::Ending::HarvestedPulled);
    RC_ASSERT(pulled <= left(catalogue::Ending::HarvestedCut) + 1e-9);
    RC_ASSERT(pulled <= left(catalogue::Ending::CutRootsLeft) + 1e-9);
  }));
}

TEST_CASE("properties: pools and loads stay finite and never negative for whatever loads") {
  CHECK(rc::check("any garden file", [] {
    const char* const climates[] = {"fairbanks", "singapore", "phoenix", "ulaanbaatar", "bogota"};
    const char* const materials[] = {"straw", "wood-chips", "feather-meal", "cattle-manure"};
    const std::string text = fmt::format(
        "garden: Lot\nsite: {{climate: {}}}\nseasons: {{from: 2027-03-01, years: 2}}\n"
        "beds:\n  - {{bed: A, length: {} m, width: 1 m, soil: {}, organic_matter: {} %, ph: {}, "
        "irrigation: {}, poorly_drained: {}, shelter: {}}}\n"
        "history:\n  - {{bed: A, crop: {}, from: 2026-04-13, to: 2026-09-14, ending: {}{}}}\n"
        "amendments:\n  - {{bed: A, date: 2027-04-05, material: {}, amount: {} kg/m2}}\n"
        "tests:\n  - {{bed: A, date: 2027-05-10, nitrate_n: {} ppm, depth: {} cm}}\n"
        "  - {{bed: A, date: 2027-05-10, mineralisable_n: {} ppm}}\n"
        "sightings:\n  - {{bed: A, disease: clubroot, date: 2026-08-10, severity: severe}}\n",
        climates[support::pick(0, 5)], support::pick(1, 90),
        support::pick(0, 2) == 0 ? "sand" : "clay", support::pick(1, 90),
        support::pick(30, 100) / 10.0, support::pick(0, 2) == 0 ? "yes" : "no",
        support::pick(0, 2) == 0 ? "yes" : "no", support::pick(0, 2) == 0 ? "tunnel" : "open",
        support::pick(0, 2) == 0 ? "rye" : "hairy-vetch",
        support::pick(0, 2) == 0 ? "incorporated" : "winterkilled",
        support::pick(0, 2) == 0 ? ", dry_matter: 20 t/ha, nitrogen: 0.4 %" : "",
        materials[support::pick(0, 4)], support::pick(0, 20) / 10.0, support::pick(0, 90),
        support::pick(5, 90), support::pick(0, 90));
    const load::ReadText read = [&](const std::string&) -> load::TextOrReason {
      return {text, {}};
    };
    diagnostic::Diagnostics said;
    const auto loaded = load::load_garden("lot/garden.yaml", support::embedded(), read, said);
    if (!loaded) return;
    const auto account = support::account_of(*loaded, "A");
    nitrogen::Pools pools = account.opening;
    double* const places[] = {&pools.mineral, &pools.fast, &pools.tie_up,
                              &pools.mulch,   &pools.slow, &pools.crop};
    Week week = account.from;
    for (const auto& one : account.postings) {
      if (one.week != week) {
        for (const double* pool : places) RC_ASSERT(std::isfinite(*pool) && *pool >= -1e-6);
        week = one.week;
      }
      *places[static_cast<std::size_t>(one.pool)] += one.kg_per_ha;
    }
    for (const auto& event : account.load_events) {
      RC_ASSERT(std::isfinite(event.load) && event.load >= 0.0);
    }
  }));
}
