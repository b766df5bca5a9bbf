#include "sequencer/rounding.h"

#include <doctest/doctest.h>

#include <random>

#include "support/embedded_garden.h"

using namespace aftercrop;
using sequencer::Rounding;

namespace {

const load::LoadedGarden& loaded() {
  static const auto kLoaded = support::embedded_garden(
      "garden: whole beds\nsite: {climate: minneapolis}\nunits: metric\n"
      "seasons: {from: 2027-03-01, years: 1}\nbeds:\n"
      "  - {bed: A, length: 6 m, width: 1 m, soil: loam, organic_matter: 4 %, ph: 6.5}\n"
      "wants:\n"
      "  - {crop: potato, amount: 11.7 m2, harvest: [2027-07-01, 2027-10-10]}\n"
      "  - {crop: beet, amount: 3.1 m2, harvest: [2027-07-01, 2027-10-10]}\n");
  return kLoaded;
}

}  // namespace

TEST_CASE("rounding: worked by hand, 11.7 m2 wanted and beds of 7.2 m2") {
  const sequencer::Objective objective(loaded().garden, loaded().catalogue);
  const Rounding one = sequencer::rounding_of(objective, 0, 7.2);
  REQUIRE(objective.wants()[0].amount_m2 == doctest::Approx(11.7));
  CHECK(one.rest == doctest::Approx(4.5));
  CHECK(one.least == doctest::Approx(9.0));
  CHECK(one.counted(7.2) == doctest::Approx(4.5));
  CHECK(one.counted(8.64) == doctest::Approx(5.94));
  CHECK(one.counted(2.0) == doctest::Approx(2.0));
  // One bed and nothing missing but 4.5 m2; a bed and a half are no plan.
  CHECK(one.counted(7.2) + 4.5 >= one.least - 1e-9);
  CHECK(1.5 * one.counted(7.2) + 0.9 < one.least);
}

TEST_CASE("rounding: no set of whole stands breaks one") {
  const sequencer::Objective objective(loaded().garden, loaded().catalogue);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> size(0.05, 14.0);
  std::uniform_int_distribution<int> count(0, 6);
  for (int trial = 0; trial < 20000; ++trial) {
    const std::size_t want = trial % 2 == 0 ? 0 : 1;
    const double wanted = objective.wants()[want].amount_m2;
    const Rounding one = sequencer::rounding_of(objective, want, size(random));
    double grown = 0.0;
    double counted = 0.0;
    for (int stands = count(random); stands > 0; --stands) {
      const double m2 = size(random);
      grown += m2;
      counted += one.counted(m2);
    }
    const double missing = std::max(0.0, wanted - grown);
    CHECK(counted + missing >= one.least - 1e-9);
  }
}

TEST_CASE("rounding: a want that is whole units says nothing") {
  const sequencer::Objective objective(loaded().garden, loaded().catalogue);
  const Rounding one = sequencer::rounding_of(objective, 0, objective.wants()[0].amount_m2 / 2.0);
  CHECK(one.rest == doctest::Approx(0.0));
  CHECK(one.least == doctest::Approx(0.0));
}

TEST_CASE("rounding: units above what is wanted are one and the same") {
  const sequencer::Objective objective(loaded().garden, loaded().catalogue);
  const Rounding one = sequencer::rounding_of(objective, 0, 12.0);
  const Rounding other = sequencer::rounding_of(objective, 0, 90.0);
  CHECK(one.unit == other.unit);
  CHECK(one.unit > 11.7);
  CHECK(one.unit < 11.7 + 1.0 / 512.0);
  CHECK(one.counted(6.0) == doctest::Approx(6.0));
  CHECK(one.least == doctest::Approx(11.7));
}
