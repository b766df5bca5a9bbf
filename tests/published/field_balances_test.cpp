#include <string>
#include <vector>

#include "support/check_table.h"
#include "support/embedded_garden.h"

// Whole-year nitrogen balances of published field experiments (a cover, then what feeds on it): the
// gardens lie in published/fields/ with their sources, and were typed before the first run.
using namespace aftercrop;
using calendar::Date;
using calendar::Week;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

Week week(const char* date) { return calendar::week_of(*Date::parse(date)); }

load::LoadedGarden field(const char* name) {
  return support::embedded_garden(
      support::file_text(std::string(AFTERCROP_ROOT "/tests/published/fields/") + name + ".yaml"));
}

/// Mineral nitrogen at the start of a week, kg/ha.
double mineral_at(const ledger::BedAccount& account, Week at) {
  double sum = account.opening.mineral;
  for (const auto& one : account.postings) {
    if (one.week < at && one.pool == Pool::Mineral) sum += one.kg_per_ha;
  }
  return sum;
}

double sum_of(const ledger::BedAccount& account, Pool pool, const std::vector<Cause>& causes,
              Week from, Week past) {
  double sum = 0.0;
  for (const auto& one : account.postings) {
    if (one.week < from || one.week >= past || one.pool != pool) continue;
    for (const Cause cause : causes) sum += one.cause == cause ? one.kg_per_ha : 0.0;
  }
  return sum;
}

/// What crops took from the soil in these weeks, kg N/ha.
double taken_up(const ledger::BedAccount& account, const char* from, const char* past) {
  return sum_of(account, Pool::Crop, {Cause::Uptake}, week(from), week(past));
}

/// What a residue gave to `mineral` beyond what it took, less the same of a bed without it.
double released(const ledger::BedAccount& with, const ledger::BedAccount& without, Week from,
                Week past) {
  const std::vector<Cause> causes = {Cause::ResidueRelease, Cause::MulchRelease, Cause::SlowRelease,
                                     Cause::WinterLoss, Cause::TieUp};
  return sum_of(with, Pool::Mineral, causes, from, past) -
         sum_of(without, Pool::Mineral, causes, from, past);
}

/// The whole account closes: what crossed the bed's border is what its pools changed by.
double gap_of(const ledger::BedAccount& account) {
  double worst = 0.0;
  for (std::size_t i = 0; i < nitrogen::kPools; ++i) {
    const auto pool = static_cast<Pool>(i);
    double sum = account.opening.at(pool) - account.closing.at(pool);
    for (const auto& one : account.postings) sum += one.pool == pool ? one.kg_per_ha : 0.0;
    worst = std::max(worst, std::abs(sum));
  }
  return worst;
}

/// Share of a crop's nitrogen that is above ground, which is what trials weigh.
double above_ground(const load::LoadedGarden& loaded, const char* crop) {
  const auto found = loaded.catalogue.find_crop(crop);
  REQUIRE_MESSAGE(found, crop);
  return 1.0 - loaded.catalogue.crop(*found).nitrogen.below_ground_share;
}

void lawson(support::CheckTable& table) {
  const auto loaded = field("lawson-2015");
  const auto mixture = support::account_of(loaded, "mixture");
  const auto rye = support::account_of(loaded, "rye");
  const auto vetch = support::account_of(loaded, "vetch");
  const double upper = loaded.catalogue.coefficients.nitrogen.plough_layer_share;
  const Week june = week("2014-06-16");
  const double after_rye = upper * mineral_at(rye, june);
  table.about("E1", 'B', "Lawson et al. 2015, PLoS ONE 10:e0129597");
  table.inside("nitrate of 0-30 cm in June, mixture above rye, kg/ha",
               upper * mineral_at(mixture, june) - after_rye, 20, 50);
  table.within("after rye", after_rye, 62, 0.5)
      .misses(
          "the plots had years of organic manuring; a bed typed with 3 % organic matter and no "
          "past is emptied by the rye, which ties up what comes after it");
  table.holds("vetch alone above rye too", upper * mineral_at(vetch, june) > after_rye);
  table.inside("account closes", gap_of(mixture), 0.0, 1e-9);
}

void hashemi(support::CheckTable& table) {
  const auto loaded = field("hashemi-2018");
  const auto tilled = support::account_of(loaded, "tilled");
  const auto on_top = support::account_of(loaded, "on-top");
  const auto bare = support::account_of(loaded, "bare");
  const Week killed = week("2014-12-01");
  const double tops = 192.0;
  table.about("E2", 'B', "Hashemi et al. 2018");
  const double by_may = released(tilled, bare, killed, week("2015-06-01")) / tops;
  table.inside("tilled in, out by the end of May", by_may, 0.35, 0.60);
  table.holds("on top less", released(on_top, bare, killed, week("2015-06-01")) / tops < by_may);
  table.inside("on top, out by the end of June",
               released(on_top, bare, killed, week("2015-06-29")) / tops, 0.30, 0.55);
  // What is fed passes the same roots: a kilogram taken up saves more than one of fertiliser.
  const double recovery = loaded.catalogue.coefficients.nitrogen.recovery;
  const auto more = [&](const ledger::BedAccount& faba) {
    return (taken_up(faba, "2015-06-15", "2015-09-21") -
            taken_up(bare, "2015-06-15", "2015-09-21")) /
           recovery;
  };
  table
      .inside("fertiliser saved in maize, of each kg of faba, mean of both",
              0.5 * (more(tilled) + more(on_top)) / tops, 50.0 / 192.0, 50.0 / 67.0)
      .misses(
          "0.23: a wet spring on sandy loam carries off a good part of what is released before "
          "maize wants it; the trial lies inland and is colder than Boston");
  table.inside("account closes", gap_of(on_top), 0.0, 1e-9);
}

void harris(support::CheckTable& table) {
  const auto loaded = field("harris-1990");
  const auto alfalfa = support::account_of(loaded, "alfalfa");
  const auto none = support::account_of(loaded, "none");
  const auto more = [&](const char* crop, const char* from, const char* past) {
    return above_ground(loaded, crop) *
           (taken_up(alfalfa, from, past) - taken_up(none, from, past)) / 112.0;
  };
  table.about("E3", 'B', "Harris and Hesterman 1990, Agron. J. 82:129");
  table.inside("first crop, share of the nitrogen", more("sweet-corn", "1988-05-16", "1988-09-26"),
               0.12, 0.30);
  table.inside("second crop, barley", more("barley", "1989-04-10", "1989-07-17"), 0.0, 0.04);
  // 17 to 25 % in the crop and 46 % in the soil: a third was lost or lay below the sampled soil.
  table.within("kept in the soil, share of the nitrogen",
               1.0 - released(alfalfa, none, week("1988-05-02"), week("1988-09-26")) / 112.0, 0.46,
               0.25);
  table.inside("account closes", gap_of(alfalfa), 0.0, 1e-9);
}

void cabbage_after_vetch(support::CheckTable& table) {
  const auto loaded = field("cabbage-after-vetch-2007");
  const auto vetch = support::account_of(loaded, "vetch");
  const auto bare = support::account_of(loaded, "bare");
  const double shoots = 136.0;
  const double above = above_ground(loaded, "cabbage-late");
  const double after_vetch = above * taken_up(vetch, "2002-06-03", "2002-10-28");
  const double after_bare = above * taken_up(bare, "2002-06-03", "2002-10-28");
  table.about("E4", 'B', "Haas, Brand and Puente de la Vega 2007, Biol. Agric. Hortic. 25:37");
  table.inside("recovered in shoots of cabbage, by difference", (after_vetch - after_bare) / shoots,
               0.17, 0.37);
  table.inside("nitrogen in shoots of cabbage after vetch, kg/ha", after_vetch, 129, 178)
      .misses(
          "94: the soil gave about twice what ours gives, at the upper end of its range; the typed "
          "bed has no manured past");
  table.inside("account closes", gap_of(vetch), 0.0, 1e-9);
}

void lettuce_after_legumes(support::CheckTable& table) {
  const auto loaded = field("lettuce-after-legumes");
  const auto clover = support::account_of(loaded, "clover");
  const auto none = support::account_of(loaded, "none");
  const Week dug_in = week("1991-04-01");
  const Week july = week("1991-07-08");
  table.about("E5", 'B', "Undersowing legume crops for green manuring of lettuce");
  table
      .inside("come from the legumes by July, of shoots and roots",
              released(clover, none, dug_in, july) / 130.0, 0.22, 0.36)
      .misses(
          "0.40: what was weighed in November is typed as dug in whole in April; less a winter's "
          "15 % it would be 0.35");
  table.within("come from the soil, kg/ha",
               sum_of(none, Pool::Mineral, {Cause::SoilSupply}, dug_in, july), 38, 0.3);
  table.inside("account closes", gap_of(clover), 0.0, 1e-9);
}

void rye_before_maize(support::CheckTable& table) {
  const auto loaded = field("rye-before-maize-2015");
  const auto rye = support::account_of(loaded, "rye");
  const auto none = support::account_of(loaded, "none");
  const Week ended = week("2010-04-19");
  table.about("E6", 'B', "Pantoja et al. 2015, rye before unfertilised maize");
  table.inside("nitrate lower after rye, kg/ha", mineral_at(none, ended) - mineral_at(rye, ended),
               7.5, 22.5);
  table.inside("account closes", gap_of(rye), 0.0, 1e-9);
}

void potato_after_clover(support::CheckTable& table) {
  const auto loaded = field("potato-after-clover");
  const auto rich = support::account_of(loaded, "rich");
  const auto poor = support::account_of(loaded, "poor");
  const double more = 201.0 - 99.0;
  const auto gained = [&](const char* from, const char* past) {
    return above_ground(loaded, "potato") *
           (taken_up(rich, from, past) - taken_up(poor, from, past)) / more;
  };
  table.about("E7", 'B', "Legume breaks in stockless organic farming rotations");
  table
      .inside("first potatoes, share of what one clover holds more",
              gained("1996-04-22", "1996-09-02"), 0.10, 0.20)
      .misses("0.34: where the soil gives little, all that one clover holds more is wanted");
  table.inside("second, hardly any", gained("1997-04-21", "1997-09-01"), -0.05, 0.05);
  table.inside("account closes", gap_of(rich), 0.0, 1e-9);
}

/// What an addition gave above ground, of each kg of it: beds that a test had set level, or by so
/// much apart as fertiliser was given.
struct Worth {
  ledger::BedAccount legume;
  ledger::BedAccount fertiliser;
  ledger::BedAccount none;
  const load::LoadedGarden* loaded = nullptr;
  double given = 100.0;  ///< kg N/ha of each
  [[nodiscard]] double share(const ledger::BedAccount& bed, const char* crop, const char* from,
                             const char* past) const {
    return above_ground(*loaded, crop) * (taken_up(bed, from, past) - taken_up(none, from, past)) /
           given;
  }
};

Worth worth_of(const load::LoadedGarden& loaded, const char* legume) {
  return {support::account_of(loaded, legume), support::account_of(loaded, "fertiliser"),
          support::account_of(loaded, "none"), &loaded};
}

void vetch_against_fertiliser(support::CheckTable& table) {
  const auto loaded = field("seo-2006");
  const Worth worth = worth_of(loaded, "vetch");
  const double vetch = worth.share(worth.legume, "sweet-corn", "2001-05-14", "2001-08-27");
  const double fertiliser = worth.share(worth.fertiliser, "sweet-corn", "2001-05-14", "2001-08-27");
  table.about("E8", 'B', "Seo, Meisinger and Lee 2006, Agron. J. 98:245");
  table.within("vetch as a share of fertiliser given at planting", vetch / fertiliser, 0.47, 0.3)
      .misses(
          "0.65: fertiliser stands there as a soil test, spread through 60 cm, and leaches more "
          "than what vetch releases in the topsoil");
  table.within("first maize, share of the vetch", vetch, 0.15, 0.5)
      .misses(
          "0.31: ours are differences between beds of well managed crops, which catch 0.77 of what "
          "they draw; a tracer shows less, as it changes places with the nitrogen of the soil");
  table.within("first maize, share of the fertiliser", fertiliser, 0.32, 0.5);
  table.within("second maize, share of the vetch",
               worth.share(worth.legume, "sweet-corn", "2002-05-13", "2002-08-26"), 0.035, 0.5);
  table.inside("account closes", gap_of(worth.legume), 0.0, 1e-9);
}

void clover_against_fertiliser(support::CheckTable& table) {
  const auto loaded = field("harris-1994");
  const Worth worth = worth_of(loaded, "clover");
  const auto both = [&](const ledger::BedAccount& bed) {
    return worth.share(bed, "sweet-corn", "1987-05-18", "1988-04-04") +
           worth.share(bed, "barley", "1988-04-04", "1988-07-18");
  };
  const double clover = both(worth.legume);
  const double fertiliser = both(worth.fertiliser);
  table.about("E9", 'B', "Harris et al. 1994, Agron. J. 86:910");
  table.within("clover as a share of fertiliser", clover / fertiliser, 0.425, 0.3)
      .misses("0.58: as with vetch");
  table.within("both crops, share of the clover", clover, 0.17, 0.5).misses("0.29: as with vetch");
  table.within("both crops, share of the fertiliser", fertiliser, 0.40, 0.5);
  table.within(
      "kept in the soil, share of the clover",
      1.0 - released(worth.legume, worth.none, week("1987-05-04"), week("1988-07-18")) / 100.0,
      0.47, 0.25);
  table.inside("account closes", gap_of(worth.legume), 0.0, 1e-9);
}

}  // namespace

TEST_CASE("published: whole-year balances of field experiments") {
  support::CheckTable table("field experiments");
  lawson(table);
  hashemi(table);
  harris(table);
  cabbage_after_vetch(table);
  lettuce_after_legumes(table);
  rye_before_maize(table);
  potato_after_clover(table);
  vetch_against_fertiliser(table);
  clover_against_fertiliser(table);
  table.finish('E', 9, support::file_text(AFTERCROP_ROOT "/README.md"), 0.22);
}
