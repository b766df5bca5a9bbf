#include "aftercrop/nitrogen/step.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <map>

#include "support/soil_weeks.h"

using namespace aftercrop;
using calendar::Week;
using catalogue::NitrogenCoefficients;
using nitrogen::Cause;
using nitrogen::CropWeek;
using nitrogen::Journal;
using nitrogen::Pool;
using nitrogen::Pools;

namespace {

constexpr double kPrinted = 6e-7;  // the trace is worked to six decimals

double sum(const Journal& journal, int week, Pool pool, Cause cause) {
  double total = 0.0;
  for (const nitrogen::Posting& one : journal.postings()) {
    if (one.week == Week(week) && one.pool == pool && one.cause == cause) total += one.kg_per_ha;
  }
  return total;
}

struct TraceWeek {
  double soil_c, moisture, drained, need;
  bool legume;
  double supply, fast, mulch, slow, tied, taken, fixed, short_of, kept, gas, leached;
  Pools after;  ///< crop pool not printed each week
};

// M 40 (all spread), G 60, D 30, Gs 10, S 20, 3 % organic matter, field capacity 0.31. Worked
// outside the program from the ledger's equations; columns in the order of the struct.
const TraceWeek kTrace[] = {{15,
                             1.0,
                             10,
                             12,
                             false,
                             3.181981,
                             14.781701,
                             1.318766,
                             0.084673,
                             10.372467,
                             12,
                             0,
                             0,
                             3.584416,
                             0.260291,
                             1.229312,
                             {31.974696, 45.218299, 19.627533, 8.681234, 26.893768, 0, 9.209937}},
                            {20,
                             0.9,
                             0,
                             30,
                             false,
                             4.05,
                             13.670562,
                             1.430058,
                             0.144835,
                             8.189622,
                             17.80935,
                             0,
                             12.19065,
                             5.319676,
                             0.22,
                             0,
                             {19.78, 31.547737, 11.43791, 7.251177, 33.503583, 0, 10.481613}},
                            {20,
                             0.9,
                             25,
                             30,
                             true,
                             4.05,
                             9.537628,
                             1.194485,
                             0.180432,
                             4.772488,
                             7.723356,
                             21.0,
                             1.276644,
                             2.306976,
                             0.22,
                             0.978882,
                             {18.801118, 22.010109, 6.665422, 6.056692, 36.862883, 0, 10.487922}}};

}  // namespace

TEST_CASE("step: three weeks of a trace worked outside the program, to all printed digits") {
  const NitrogenCoefficients& k = support::coefficients();
  Pools pools{40, 60, 30, 10, 20, 0};
  Journal journal;
  for (int i = 0; i < 3; ++i) {
    CAPTURE(i);
    const TraceWeek& row = kTrace[i];
    nitrogen::SoilFigures soil;
    soil.field_capacity = 0.31;
    soil.moisture = row.moisture;
    const auto rates = nitrogen::week_rates(
        row.soil_c, {row.drained, row.drained, row.drained, row.drained}, soil, k);
    CropWeek crop;
    crop.need = row.need;
    crop.fixation_share = row.legume ? 0.62 : 0.0;
    crop.fixation_ceiling = row.legume ? 0.70 : 0.0;
    const auto flows = nitrogen::step(pools, rates, {}, &crop, 3, k, Week(i), &journal);

    CHECK(std::abs(rates.supply - row.supply) < kPrinted);
    CHECK(std::abs(sum(journal, i, Pool::Mineral, Cause::ResidueRelease) - row.fast) < kPrinted);
    const double off_the_mulch = sum(journal, i, Pool::Mulch, Cause::MulchRelease) +
                                 sum(journal, i, Pool::Mulch, Cause::Ammonia);
    CHECK(std::abs(-off_the_mulch - row.mulch) < kPrinted);
    CHECK(sum(journal, i, Pool::Mulch, Cause::Ammonia) ==
          doctest::Approx(0.05 * off_the_mulch).epsilon(1e-12));
    CHECK(std::abs(sum(journal, i, Pool::Mineral, Cause::SlowRelease) - row.slow) < kPrinted);
    CHECK(std::abs(-sum(journal, i, Pool::Mineral, Cause::TieUp) - row.tied) < kPrinted);
    CHECK(std::abs(flows.taken_up - row.taken) < kPrinted);
    CHECK(std::abs(flows.fixed - row.fixed) < kPrinted);
    CHECK(std::abs(flows.shortfall - row.short_of) < kPrinted);
    CHECK(std::abs(-sum(journal, i, Pool::Mineral, Cause::SoilLife) - row.kept) < kPrinted);
    CHECK(std::abs(flows.gas - row.gas) < kPrinted);
    CHECK(std::abs(flows.leached - row.leached) < kPrinted);
    for (const Pool pool : {Pool::Mineral, Pool::Fast, Pool::TieUp, Pool::Mulch, Pool::Slow}) {
      CHECK(std::abs(pools.at(pool) - row.after.at(pool)) < kPrinted);
    }
    CHECK(std::abs(pools.fresh - row.after.fresh) < kPrinted);
  }
  CHECK(std::abs(pools.crop - 58.532706) < kPrinted);
}

TEST_CASE("step: what roots draw is shared with soil life, half of that slowly given back") {
  NitrogenCoefficients k = support::closed_soil();
  k.recovery.value = 0.8;
  const auto frozen = nitrogen::week_rates(0, {0, 0, 0, 0}, {}, k);
  CropWeek crop;  // leaves 20 kg
  crop.need = 60;
  Pools hungry{70, 0, 0, 0, 0, 0};
  Journal journal;
  const auto flows = nitrogen::step(hungry, frozen, {}, &crop, 3, k, Week(0), &journal);
  CHECK(flows.taken_up == doctest::Approx(40.0));  // 0.8 x (70 - 20)
  CHECK(flows.shortfall == doctest::Approx(20.0));
  CHECK(hungry.mineral == doctest::Approx(20.0));
  CHECK(hungry.crop == doctest::Approx(40.0));
  CHECK(hungry.slow == doctest::Approx(5.0));  // half of 10
  CHECK(sum(journal, 0, Pool::Mineral, Cause::SoilLife) == doctest::Approx(-10.0));
  CHECK(sum(journal, 0, Pool::Slow, Cause::SoilLife) == doctest::Approx(5.0));

  crop.need = 20;
  Pools sated{70, 0, 0, 0, 0, 0};
  CHECK(nitrogen::step(sated, frozen, {}, &crop, 3, k, Week(0), nullptr).shortfall == 0.0);
  CHECK(sated.mineral == doctest::Approx(45.0));  // 70 - 20 / 0.8
}

TEST_CASE("step: of the supply, the share of a depth is that of the slice and what lies below") {
  const NitrogenCoefficients& k = support::coefficients();
  CHECK(nitrogen::supply_share(60, k) == 1.0);
  CHECK(nitrogen::supply_share(90, k) == 1.0);
  CHECK(nitrogen::supply_share(k.slice_cm, k) == k.slice_share);
  CHECK(nitrogen::supply_share(9, k) == doctest::Approx(0.265));   // half of 0.53
  CHECK(nitrogen::supply_share(39, k) == doctest::Approx(0.765));  // 0.53 + half of 0.47
  // the slice of the rule of thumb: 20 lb/acre
  CHECK(k.supply_per_om * k.slice_share == doctest::Approx(22.4).epsilon(0.01));
}

TEST_CASE("step: what is bought goes into the crop, less what soil life keeps of it") {
  const NitrogenCoefficients& k = support::coefficients();
  const auto rates = nitrogen::week_rates(20, {5, 5, 5, 5}, {}, k);
  CropWeek crop;
  crop.need = 60;
  Pools unfed{30, 0, 0, 0, 0, 0};
  Pools fed = unfed;
  const auto without = nitrogen::step(unfed, rates, {}, &crop, 3, k, Week(0), nullptr);
  crop.buys = true;
  const auto with = nitrogen::step(fed, rates, {}, &crop, 3, k, Week(0), nullptr);
  CHECK(without.bought == 0.0);
  CHECK(with.bought == doctest::Approx(without.shortfall / k.recovery));
  CHECK(with.shortfall == without.shortfall);
  CHECK(fed.mineral == unfed.mineral);
  CHECK(fed.slow - unfed.slow == doctest::Approx(k.slow_share * (with.bought - with.shortfall)));
  CHECK(fed.crop == doctest::Approx(60.0));
  CHECK(unfed.crop == doctest::Approx(60.0 - without.shortfall));
}

TEST_CASE("step: tie-up that finds no mineral nitrogen lapses") {
  const NitrogenCoefficients k = support::closed_soil();
  Pools pools{1.0, 0, 100, 0, 0, 0};
  support::keep_at(pools, 20, 1, k);
  CHECK(pools.mineral == 0.0);
  CHECK(pools.tie_up == doctest::Approx(100 * std::exp(-0.6)));  // e^-0.6 = 0.549
  CHECK(pools.slow == doctest::Approx(0.5));                     // half of the 1 kg that was found
}

TEST_CASE("step: what is released in the topsoil leaches later, by no more than Burns's equation") {
  const NitrogenCoefficients k = support::closed_soil();
  nitrogen::SoilFigures soil;
  soil.field_capacity = 0.2;  // 60 cm hold 120 mm
  for (const double filled : {0.5, 0.75, 1.0, 1.33, 1.7}) {
    CAPTURE(filled);
    const auto rates = nitrogen::week_rates(0, {120 * filled, 0, 0, 0}, soil, k);
    Pools pools;
    pools.release(100);
    const double leached =
        nitrogen::step(pools, rates, {}, nullptr, 0, k, Week(0), nullptr).leached;
    // nitrate mixed into 18 cm: an exponent of 60 - 9 cm (Burns 1975)
    const double drained_cm = 12 * filled;
    const double burns = 100 * std::pow(drained_cm / (drained_cm + 0.2), 51);
    CHECK(std::abs(leached - burns) < 7.0);
    CHECK(pools.mineral == doctest::Approx(100 - leached));
    CHECK(pools.fresh < pools.mineral);
  }
}

TEST_CASE("step: fresh nitrogen, too, leaches alike in many small weeks and in one") {
  const NitrogenCoefficients k = support::closed_soil();
  const auto drip = nitrogen::week_rates(0, {10, 0, 0, 0}, {}, k);
  const auto flood = nitrogen::week_rates(0, {200, 0, 0, 0}, {}, k);
  Pools slowly{30, 0, 0, 0, 0, 0};
  slowly.release(50);
  Pools at_once = slowly;
  for (int i = 0; i < 20; ++i) nitrogen::step(slowly, drip, {}, nullptr, 0, k, Week(i), nullptr);
  nitrogen::step(at_once, flood, {}, nullptr, 0, k, Week(0), nullptr);
  CHECK(slowly.mineral == doctest::Approx(at_once.mineral).epsilon(1e-12));
  CHECK(slowly.fresh == doctest::Approx(at_once.fresh).epsilon(1e-12));
}

TEST_CASE("step: frozen soil does nothing, above 35 C nothing goes faster") {
  CHECK(nitrogen::temperature_factor(0.0) == 0.0);
  CHECK(nitrogen::temperature_factor(-12.0) == 0.0);
  CHECK(nitrogen::temperature_factor(20.0) == 1.0);
  CHECK(nitrogen::temperature_factor(30.0) == doctest::Approx(2.0));
  CHECK(nitrogen::temperature_factor(35.0) == doctest::Approx(2.8284271247));  // 2^1.5
  CHECK(nitrogen::temperature_factor(44.0) == nitrogen::temperature_factor(35.0));
}

TEST_CASE("step: organic matter above the cap supplies no more") {
  const NitrogenCoefficients& k = support::coefficients();
  nitrogen::SoilFigures soil;
  soil.organic_matter_pct = 8.0;
  const double capped = nitrogen::week_rates(15, {0, 0, 0, 0}, soil, k).supply;
  soil.organic_matter_pct = 20.0;
  CHECK(nitrogen::week_rates(15, {0, 0, 0, 0}, soil, k).supply == capped);
  soil.organic_matter_pct = 4.0;
  CHECK(nitrogen::week_rates(15, {0, 0, 0, 0}, soil, k).supply == doctest::Approx(capped / 2));
}

TEST_CASE("step: leaching in many small weeks is leaching in one") {
  const NitrogenCoefficients k = support::closed_soil();
  const auto drip = nitrogen::week_rates(0, {10, 0, 0, 0}, {}, k);
  const auto flood = nitrogen::week_rates(0, {200, 0, 0, 0}, {}, k);
  Pools slowly{80, 0, 0, 0, 0, 0};
  Pools at_once = slowly;
  for (int i = 0; i < 20; ++i) nitrogen::step(slowly, drip, {}, nullptr, 0, k, Week(i), nullptr);
  nitrogen::step(at_once, flood, {}, nullptr, 0, k, Week(0), nullptr);
  CHECK(slowly.mineral == doctest::Approx(at_once.mineral).epsilon(1e-12));
}

TEST_CASE("step: every cause has its words and its source") {
  for (int i = 0; i < static_cast<int>(catalogue::kCauses); ++i) {
    CAPTURE(i);
    const catalogue::CauseText& text = support::coefficients().causes[static_cast<std::size_t>(i)];
    CHECK(!text.words.empty());
    CHECK(!text.source.empty());
    CHECK(text.low <= 1.0);
    CHECK(text.high >= 1.0);
  }
}
