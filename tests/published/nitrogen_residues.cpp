#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "published/nitrogen_tables.h"
#include "support/soil_weeks.h"

namespace aftercrop::published {
namespace {

using nitrogen::Pools;

constexpr double kPoundPerAcre = 1.12085;
constexpr double kShortTonPerAcre = 2.24170;  // t/ha
constexpr double kNormalC = 20.0;             // a week at 20 C is one normal week
constexpr double kCarbonPct = 42.0;           // of dry matter, common practice

/// Net mineral nitrogen of one tonne dug in, kg/t, after weeks at a soil temperature.
double net_of_tonne(double n_pct, double soil_c, int weeks) {
  const auto k = support::closed_soil();
  Pools pools = support::with_buried_tonne(n_pct, k);
  support::keep_at(pools, soil_c, weeks, k);
  return pools.mineral - support::kPlenty;
}

/// The same left on top.
double net_on_top(double n_pct, double soil_c, int weeks) {
  const auto k = support::closed_soil();
  Pools pools;
  pools.mineral = support::kPlenty;
  nitrogen::lay_as_mulch(pools, {10 * n_pct, 1.0, {}}, k, {});
  support::keep_at(pools, soil_c, weeks, k);
  return pools.mineral - support::kPlenty;
}

/// Share of the nitrogen of tops (3.5 %, 100 kg) that is mineral after spells of (C, weeks).
double released(bool on_top, const std::vector<std::pair<double, int>>& spells) {
  const auto k = support::closed_soil();
  Pools pools;
  pools.mineral = support::kPlenty;
  const nitrogen::Residue tops{100, 100 / 35.0, {}};
  if (on_top) {
    nitrogen::lay_as_mulch(pools, tops, k, {});
  } else {
    nitrogen::bury(pools, tops, k, {});
  }
  for (const auto& [soil_c, weeks] : spells) support::keep_at(pools, soil_c, weeks, k);
  return (pools.mineral - support::kPlenty) / 100;
}

void check_release_line(support::CheckTable& table) {
  const auto& k = support::coefficients();
  const char* pnw = "Sullivan and Andrews 2012, PNW 636";
  const double tons = 2.0 * kShortTonPerAcre;
  table.about("N11", 'A', pnw);
  const double good = nitrogen::final_net({35 * tons, tons, {}}, k);
  table.within("2 tons an acre at 3.5 %, lb/acre", good / kPoundPerAcre, 70, 0.02);
  table.within("the same as a share of its nitrogen", good / (35 * tons), 0.5, 0.02);
  table.about("N12", 'A', pnw);
  table.near("a tonne at 1.5 %, kg/ha", nitrogen::final_net({15, 1, {}}, k), 0, 1);
  table.about("N13", 'B', pnw);
  const double mix =
      nitrogen::final_net({12 * 3.75, 3.75, {}}, k) + nitrogen::final_net({35 * 1.25, 1.25, {}}, k);
  table.inside("75 % cereal with 25 % legume, 5 t, kg/ha", mix, -10, 15);
}

void check_laboratory(support::CheckTable& table) {
  table.about("N14", 'B', "Gomes et al. 2024 (preprint)");
  table.inside("rye of C:N 10, share mineral after 16 weeks at 20 C",
               net_of_tonne(42.0 / 10.0, kNormalC, 16) / 42.0, 0.46, 0.66);
  const char* trinsoutrot = "Trinsoutrot et al. 2000, SSSAJ 64:918";
  table.about("N15", 'B', trinsoutrot);
  double low = 0.5;
  double high = 5.0;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    (net_of_tonne(middle, 15, 24) < 0 ? low : high) = middle;
  }
  table.inside("C:N of break-even after 168 days at 15 C", kCarbonPct / low, 20, 32);
  table.about("N16", 'B', trinsoutrot);
  table.holds("2.0 % ties up in its first week", net_of_tonne(2.0, kNormalC, 1) < 0.0);
  table.holds("5.0 % never ties up", net_of_tonne(5.0, kNormalC, 1) > 0.0);
  table.about("N17", 'B', trinsoutrot);
  double deepest = 0.0;
  for (int week = 1; week <= 20; ++week) {
    deepest = std::min(deepest, net_of_tonne(0.58, kNormalC, week));
  }
  table.inside("most that wheat straw ties up, g a kg of carbon", -deepest / (kCarbonPct / 100), 5,
               33);
}

void check_fields(support::CheckTable& table) {
  table.about("N18", 'B', "Lawson et al. 2015, PLoS ONE 10:e0129597");
  const double n_pct = 103 / 41.0;
  const double four = 4.1 * net_of_tonne(n_pct, kNormalC, 4);
  const double five = 4.1 * net_of_tonne(n_pct, kNormalC, 5);
  table.inside("vetch and rye after 4.7 normal weeks, kg/ha", four + 0.7 * (five - four), 20, 50);

  table.about("N19", 'B', "Minnesota and North Carolina field worksheets");
  for (const double n : {3.5, 4.0}) {  // first-season shares are reached at ten normal weeks
    const std::string tops = fmt::format("legume tops of {:.1f} %, ", n);
    table.inside(tops + "dug in", net_of_tonne(n, kNormalC, 10) / (10 * n), 0.40, 0.60);
    table.inside(tops + "on top", net_on_top(n, kNormalC, 10) / (10 * n), 0.25, 0.50);
  }

  table.about("N20", 'B', "Hashemi et al. 2018");
  std::vector<std::pair<double, int>> spells = {{2, 4}, {0, 9}, {2, 4}, {8, 4}, {14, 5}};
  const double dug_in = released(false, spells);
  const double on_top = released(true, spells);
  table.inside("faba tilled in, out by the end of May", dug_in, 0.35, 0.60);
  table.holds("on top less", on_top < dug_in);
  spells.emplace_back(18, 4);
  table.inside("on top, out by the end of June", released(true, spells), 0.30, 0.55);

  table.about("N21", 'B',
              "Kusonwiriyawong 2005, OSU thesis: fibrous dairy solids, 700 degree-days");
  const auto daily = [] {
    auto rates = support::closed_soil();  // a seventh of a week is a step of its own
    for (auto* rate : {&rates.rate_fast, &rates.rate_tie_up, &rates.rate_slow}) rate->value /= 7;
    return rates;
  }();
  Pools pools = support::with_buried_tonne(1.5, daily);
  double deepest = support::kPlenty;
  int turn = 0;
  for (int day = 1; day <= 140; ++day) {
    support::keep_at(pools, kNormalC, 1, daily);
    if (pools.mineral < deepest) turn = day;
    deepest = std::min(deepest, pools.mineral);
  }
  table.inside("degree-days until tie-up turns to release", turn * kNormalC, 400, 1000)
      .misses(
          "the ledger has one pair of rates for all that is dug in; fibrous stuff would want "
          "rates of two fifths and a pool of its own");

  table.about("N22", 'B', "Harris and Hesterman 1990, Agron. J. 82:129");
  const auto k = support::closed_soil();
  Pools lucerne;
  lucerne.mineral = support::kPlenty;
  nitrogen::bury(lucerne, {112, 112 / 30.0, {}}, k, {});
  support::keep_at(lucerne, kNormalC, 28, k);  // normal weeks of a year
  const double first = lucerne.mineral - support::kPlenty;
  table.inside("first crop, share of the nitrogen", 0.5 * first / 112, 0.12, 0.30);
  support::keep_at(lucerne, kNormalC, 28, k);
  const double second = lucerne.mineral - support::kPlenty - first;
  table.inside("second crop", 0.5 * second / 112, 0.0, 0.04);
}

}  // namespace

void check_residues(support::CheckTable& table) {
  check_release_line(table);
  check_laboratory(table);
  check_fields(table);
}

}  // namespace aftercrop::published
