#include "aftercrop/nitrogen/residue.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "support/soil_weeks.h"

using namespace aftercrop;
using catalogue::Ending;
using nitrogen::Cause;
using nitrogen::Journal;
using nitrogen::Pool;
using nitrogen::Pools;

namespace {

double posted(const Journal& journal, Pool pool, Cause cause) {
  double total = 0.0;
  for (const nitrogen::Posting& one : journal.postings()) {
    if (one.pool == pool && one.cause == cause) total += one.kg_per_ha;
  }
  return total;
}

/// Faba cover of the worked example: tops 135 kg N in 4.5 t, roots 45 kg N at 2.5 % in 1.8 t.
nitrogen::StandingCrop faba() {
  nitrogen::StandingCrop standing;
  standing.tops_kg_ha = 135;
  standing.tops_dry_t_ha = 4.5;
  standing.roots_kg_ha = 45;
  standing.roots_dry_t_ha = 1.8;
  return standing;
}

Pools ended(Ending ending, Journal* journal = nullptr) {
  Pools pools;
  pools.crop = 180;
  nitrogen::end_stand(pools, faba(), ending, support::coefficients(), {{}, journal});
  return pools;
}

}  // namespace

TEST_CASE("residue: net release of a tonne by nitrogen content and normal weeks") {
  // Net kg N/ha per t dry matter after 1, 2, 4, 6, 10 normal weeks and at the end, worked from the
  // two fast rates alone (the slow pool held still), to one decimal. At 3.0 % after one week:
  // 26.25 x (1 - e^-0.4) - 13.125 x (1 - e^-0.6) = 8.654 - 5.922 = 2.73.
  struct Row {
    double n_pct;
    std::array<double, 5> after;
    double final_net;
  };
  const Row rows[] = {
      {0.58, {-4.2, -6.4, -7.9, -8.2, -8.1}, -8.0}, {1.0, {-3.0, -4.4, -5.0, -4.8, -4.5}, -4.4},
      {1.5, {-1.6, -1.9, -1.5, -0.8, -0.2}, 0.0},   {2.0, {-0.2, 0.5, 2.0, 3.1, 4.1}, 4.4},
      {2.5, {1.3, 2.9, 5.5, 7.1, 8.4}, 8.8},        {3.0, {2.7, 5.3, 9.0, 11.1, 12.7}, 13.1},
      {3.5, {4.2, 7.7, 12.5, 15.1, 17.0}, 17.5},    {4.0, {5.6, 10.1, 16.0, 19.1, 21.3}, 21.9},
      {5.0, {8.5, 14.9, 23.0, 27.0, 29.9}, 30.6}};
  const int weeks[] = {1, 2, 4, 6, 10};
  catalogue::NitrogenCoefficients k = support::closed_soil();
  k.rate_slow.value = 0.0;
  for (const Row& row : rows) {
    CAPTURE(row.n_pct);
    for (std::size_t i = 0; i < 5; ++i) {
      CAPTURE(weeks[i]);
      Pools pools = support::with_buried_tonne(row.n_pct, k);
      support::keep_at(pools, 20, weeks[i], k);
      CHECK(std::abs(pools.mineral - support::kPlenty - row.after[i]) < 0.0501);
    }
    CHECK(std::abs(nitrogen::final_net({10 * row.n_pct, 1.0, {}}, k) - row.final_net) < 0.0501);
  }
}

TEST_CASE("residue: what is buried goes to the fast pool, to tie-up and half of the rest to slow") {
  Pools pools;
  nitrogen::bury(pools, {150, 150 / 35.0, {}}, support::coefficients(), {});
  CHECK(pools.fast == doctest::Approx(131.25));   // 0.875 x 150
  CHECK(pools.tie_up == doctest::Approx(56.25));  // 13.125 x 4.2857
  CHECK(pools.slow == doctest::Approx(9.375));    // 0.5 x 18.75
  CHECK(pools.mineral == 0.0);
}

TEST_CASE("residue: mulch of less than 1.5 % ties up little and gives nothing fast") {
  const catalogue::NitrogenCoefficients& k = support::coefficients();
  Pools straw;
  nitrogen::lay_as_mulch(straw, {5.8, 1.0, {}}, k, {});
  CHECK(straw.mulch == 0.0);
  CHECK(straw.tie_up == doctest::Approx(0.15 * 8.05));  // 13.125 - 0.875 x 5.8 = 8.05
  CHECK(straw.slow == doctest::Approx(2.9));
  Pools vetch;
  nitrogen::lay_as_mulch(vetch, {35, 1.0, {}}, k, {});
  CHECK(vetch.mulch == doctest::Approx(17.5));
  CHECK(vetch.tie_up == 0.0);
  CHECK(vetch.slow == doctest::Approx(8.75));
}

TEST_CASE("residue: each ending of a stand sends its nitrogen where it belongs") {
  // Tops net 8.75 x (3.0 - 1.5) x 4.5 = 59.06, roots 0.875 x 45 - 13.125 x 1.8 = 15.75.
  const catalogue::NitrogenCoefficients& k = support::coefficients();
  CHECK(nitrogen::final_net({135, 4.5, {}}, k) == doctest::Approx(59.0625));
  CHECK(nitrogen::final_net({45, 1.8, {}}, k) == doctest::Approx(15.75));

  const Pools buried = ended(Ending::Incorporated);
  CHECK(buried.fast == doctest::Approx(0.875 * 180));
  CHECK(buried.tie_up == doctest::Approx(13.125 * 6.3));
  CHECK(buried.mulch == 0.0);

  for (const Ending ending : {Ending::CutRootsLeft, Ending::Mown, Ending::Tarped}) {
    const Pools mulched = ended(ending);
    CHECK(mulched.mulch == doctest::Approx(59.0625));
    CHECK(mulched.fast == doctest::Approx(0.875 * 45));
  }

  const Pools cut = ended(Ending::HarvestedCut);
  CHECK(cut.fast - cut.tie_up == doctest::Approx(15.75));  // only the roots are left
  CHECK(cut.mulch == 0.0);

  Journal journal;
  const Pools pulled = ended(Ending::HarvestedPulled, &journal);
  CHECK(pulled.fast - pulled.tie_up == doctest::Approx(0.55 * 15.75));
  CHECK(posted(journal, Pool::Crop, Cause::CarriedOff) == doctest::Approx(-(135 + 0.45 * 45)));

  const Pools frosted = ended(Ending::Winterkilled);
  CHECK(frosted.mineral == doctest::Approx(0.5 * 0.15 * 135));
  CHECK(frosted.mulch == doctest::Approx(0.875 * 0.85 * 135 - 13.125 * 4.5));

  for (const Pools& one : {buried, cut, pulled, frosted}) CHECK(one.crop == 0.0);
}

TEST_CASE("residue: mulch that lies there is dug in with the next cover, without new tie-up") {
  Pools pools;
  pools.crop = 180;
  pools.mulch = 20;
  nitrogen::end_stand(pools, faba(), Ending::Incorporated, support::coefficients(), {});
  CHECK(pools.mulch == 0.0);
  CHECK(pools.fast == doctest::Approx(0.875 * 180 + 20));
  CHECK(pools.tie_up == doctest::Approx(13.125 * 6.3));
}

TEST_CASE("residue: a harvest takes no more than the crop holds") {
  Pools pools;
  pools.crop = 12;
  nitrogen::harvest(pools, 20, {}, {});
  CHECK(pools.crop == 0.0);
}
