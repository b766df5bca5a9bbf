#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "aftercrop/sequencer/sequence.h"
#include "support/every_plan.h"
#include "support/plan_readded.h"
#include "support/tiny_world.h"

// Three hundred random gardens of two beds and one year: the sequencer against every plan there is.
using namespace aftercrop;
using support::Lifted;

namespace {

constexpr double kSame = 1e-6;
constexpr double kMuch = 1e-4;  // share of the optimum from which on another plan counts as better
constexpr unsigned kGardens = 100;
constexpr int kMustBind = 34;  // of each hundred, so more than 100 of the three hundred
/// Of each hundred the optimum is known to be missed in 16, 5 and 7: its bound shows that more may
/// be possible, its search does not find it. May become less, never more.
constexpr std::size_t kKnownMisses = 16;

struct Counts {
  int breaks = 0;
  int loads = 0;
  int nitrogen = 0;
  int leaching = 0;
  int sharing = 0;
  long paths = 0;
  std::vector<std::string> misses;
};

void count_binding(const support::EveryPlan& all, Counts& counts) {
  const double much = kMuch * std::max(1.0, std::abs(all.optimum()));
  counts.breaks += all.binds(Lifted::Breaks, much) ? 1 : 0;
  counts.loads += all.binds(Lifted::Loads, much) ? 1 : 0;
  counts.nitrogen += all.binds(Lifted::NitrogenPrice, much) ? 1 : 0;
  counts.leaching += all.binds(Lifted::LeachingPrice, much) ? 1 : 0;
  counts.sharing += all.sharing_binds(much) ? 1 : 0;
}

void hold_against_all_plans(unsigned seed, Counts& counts) {
  CAPTURE(seed);
  const support::TinyWorld world = support::read_tiny(seed);
  const garden::Garden& garden = world.loaded.garden;
  const support::EveryPlan all(garden, world.loaded.catalogue, world.climates);
  counts.paths += all.tried;
  count_binding(all, counts);

  sequencer::Stop stop;  // rounds end it, never the clock
  stop.within_seconds = 3600.0;
  stop.gap = 0.0;
  stop.max_rounds = 60;
  const auto outcome = sequencer::sequence(garden, world.loaded.catalogue, world.climates, stop);
  const support::PlanReadded readded(garden, world.loaded.catalogue, world.climates, outcome.plan);
  const double scale = std::max(1.0, std::abs(all.optimum()));
  CHECK(std::abs(readded.value - outcome.value.total()) <= kSame * scale);
  CHECK(outcome.value.total() <= all.optimum() + kSame * scale);
  REQUIRE(outcome.bound);
  CHECK(all.optimum() <= *outcome.bound + kSame * scale);
  if (outcome.value.total() < all.optimum() - kSame * scale) {
    counts.misses.push_back(
        fmt::format("garden {}: {:.4f} of {:.4f}", seed, outcome.value.total(), all.optimum()));
  }
}

void hold_a_hundred(unsigned first) {
  Counts counts;
  for (unsigned seed = first; seed < first + kGardens; ++seed) {
    hold_against_all_plans(seed, counts);
  }
  MESSAGE(fmt::format(
      "gardens {} to {}: {} paths tried; binding: breaks {}, loads {}, nitrogen price {}, leaching "
      "{}, shared wants {}; optimum missed in {}",
      first, first + kGardens - 1, counts.paths, counts.breaks, counts.loads, counts.nitrogen,
      counts.leaching, counts.sharing, counts.misses.size()));
  for (const std::string& miss : counts.misses) MESSAGE(miss);
  CHECK(counts.misses.size() <= kKnownMisses);
  CHECK(counts.breaks >= kMustBind);
  CHECK(counts.loads >= kMustBind);
  CHECK(counts.nitrogen >= kMustBind);
  CHECK(counts.leaching >= kMustBind);
  CHECK(counts.sharing >= kMustBind);
}

}  // namespace

// The suite's name is the label by which ctest can leave them out (-LE slow).
TEST_SUITE_BEGIN("slow");

TEST_CASE("sequencer: optimum of tiny gardens 1 to 100, among all their plans") {
  hold_a_hundred(1);
}

TEST_CASE("sequencer: optimum of tiny gardens 101 to 200, among all their plans") {
  hold_a_hundred(101);
}

TEST_CASE("sequencer: optimum of tiny gardens 201 to 300, among all their plans") {
  hold_a_hundred(201);
}

TEST_SUITE_END();
