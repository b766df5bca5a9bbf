#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "support/lived_bed.h"

using namespace aftercrop;
using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

constexpr double kKgHaPerKgM2 = 10000.0;

Date day(const char* text) { return *Date::parse(text); }

/// Everything that one material puts into a bed.
nitrogen::Additions posted(const char* material, double kg_per_m2) {
  garden::Garden garden = support::one_bed("utrecht");
  garden::Application spread;
  spread.bed = garden::BedId(0);
  spread.date = day("2027-05-03");
  spread.material = *support::embedded().find_amendment(material);
  spread.kg_per_m2 = kg_per_m2;
  garden.applications.push_back(spread);
  const auto account =
      ledger::account(support::ledger_of(garden, "utrecht"), garden, garden::Plan());
  nitrogen::Additions sum;
  for (const auto& one : account.postings) {
    if (one.cause != Cause::Amendment) continue;
    if (one.pool == Pool::Mineral) sum.mineral += one.kg_per_ha;
    if (one.pool == Pool::Fast) sum.fast += one.kg_per_ha;
    if (one.pool == Pool::Slow) sum.slow += one.kg_per_ha;
    if (one.pool == Pool::TieUp) sum.tie_up += one.kg_per_ha;
  }
  return sum;
}

garden::Sighting seen(const char* disease, const char* date, garden::SightingSeverity severity) {
  garden::Sighting sighting;
  sighting.bed = garden::BedId(0);
  sighting.disease = *support::embedded().find_pathogen(disease);
  sighting.date = day(date);
  sighting.severity = severity;
  return sighting;
}

}  // namespace

TEST_CASE("records: feather meal gives its available share, a good half of it at once") {
  // 0.5 kg/m2 of 13 %: 650 kg N/ha, 0.60 available: 390; 0.55 of that within two weeks.
  const auto meal = posted("feather-meal", 0.5);
  CHECK(meal.mineral + meal.fast == doctest::Approx(390));
  CHECK(meal.mineral == doctest::Approx(0.55 * 390));
  CHECK(meal.tie_up == 0.0);
}

TEST_CASE("records: wood chips tie up less than their dry matter would") {
  // 10 kg/m2 of chips: dry matter by the row, of which 0.3 counts: 13.125 x 0.3 kg a tonne. Their
  // own nitrogen is slow.
  const auto& chips =
      support::embedded().amendment(*support::embedded().find_amendment("wood-chips"));
  const double dry_t_ha = 10 * 10 * chips.dry_matter;
  const auto wood = posted("wood-chips", 10);
  CHECK(wood.tie_up == doctest::Approx(13.125 * chips.tie_up_share * dry_t_ha));
  CHECK(chips.tie_up_share == doctest::Approx(0.3));
  CHECK(wood.fast == 0.0);
  CHECK(wood.slow == doctest::Approx(10 * kKgHaPerKgM2 * chips.n_pct / 100));
  const auto& straw_row =
      support::embedded().amendment(*support::embedded().find_amendment("straw"));
  const auto straw = posted("straw", 1);
  CHECK(straw.tie_up == doctest::Approx(13.125 * 10 * straw_row.dry_matter));
  CHECK(straw.fast == doctest::Approx(0.875 * kKgHaPerKgM2 * straw_row.n_pct / 100));
}

TEST_CASE("records: a nitrate test sets the profile, whatever was reckoned before") {
  // 14 ppm in 30 cm of bulk density rho: 14 x 0.1 x 30 x rho kg/ha, which is 60 % of 60 cm.
  garden::Garden garden = support::one_bed("utrecht");
  garden::SoilTest test;
  test.bed = garden::BedId(0);
  test.date = day("2027-06-14");
  test.nitrate_n_ppm = 14;
  garden.tests.push_back(test);
  const ledger::BedLedger ledger = support::ledger_of(garden, "utrecht");
  const auto account = ledger::account(ledger, garden, garden::Plan());
  const double rho = support::embedded().soil(garden.beds[0].soil).bulk_density;
  double before = account.opening.mineral;
  int tests = 0;
  for (const auto& one : account.postings) {
    if (one.pool != Pool::Mineral) continue;
    if (one.cause == Cause::SoilTest) {
      ++tests;
      CHECK(one.week == calendar::week_of(test.date));
      CHECK(before + one.kg_per_ha == doctest::Approx(14 * 0.1 * 30 * rho / 0.6));
    }
    before += one.kg_per_ha;
  }
  CHECK(tests == 1);
}

TEST_CASE("records: a sighting raises the load at the end of its season, in both hemispheres") {
  struct Row {
    const char* climate;
    const char* date;
    const char* from;  ///< first week with the load
    double load;
    garden::SightingSeverity severity;
  };
  const Row rows[] = {
      {"minneapolis", "2027-08-10", "2027-W52", 2.0, garden::SightingSeverity::Some},
      {"minneapolis", "2027-08-10", "2027-W52", 8.0, garden::SightingSeverity::Severe},
      {"hobart", "2028-02-10", "2028-W26", 0.5, garden::SightingSeverity::Trace},
      {"hobart", "2027-11-10", "2028-W26", 2.0, garden::SightingSeverity::Some}};
  for (const Row& row : rows) {
    CAPTURE(std::string(row.climate));
    CAPTURE(row.load);
    garden::Garden garden = support::one_bed(row.climate);
    garden.seasons = {*calendar::parse_week("2029-W01"), *calendar::parse_week("2030-W01")};
    garden.sightings.push_back(seen("clubroot", row.date, row.severity));
    const ledger::SiteClimates climates(garden, support::embedded());
    const ledger::BedLedger ledger(support::embedded(), garden, garden::BedId(0),
                                   climates.of(garden::Shelter::Open),
                                   ledger::tracked_pathogens(garden, support::embedded(), false));
    ledger::BedState state = ledger.opening();
    REQUIRE(state.loads.size() == 1);
    ledger.idle(state, *calendar::parse_week(row.from));
    CHECK(state.loads[0].central == 0.0);
    ledger.idle(state, *calendar::parse_week(row.from) + Weeks(2));
    CHECK(state.loads[0].seen);
    CHECK(state.loads[0].central == doctest::Approx(row.load).epsilon(0.02));
  }
}

TEST_CASE("records: a sighting on another section of the bed is half of it and no evidence") {
  garden::Garden garden = support::one_bed("minneapolis");
  auto other = seen("clubroot", "2027-08-10", garden::SightingSeverity::Some);
  other.shared = true;
  garden.sightings.push_back(other);
  const ledger::BedLedger ledger = support::ledger_of(garden, "minneapolis");
  ledger::BedState state = ledger.opening();
  ledger.idle(state, *calendar::parse_week("2027-W34"));  // seen in W32, inside the seasons
  const auto& tracked = ledger.tracked();
  const auto at = std::find(tracked.begin(), tracked.end(), other.disease) - tracked.begin();
  const ledger::Load& load = state.loads[static_cast<std::size_t>(at)];
  CHECK(load.central == doctest::Approx(1.0).epsilon(0.02));
  CHECK_FALSE(load.seen);
}

TEST_CASE("records: background loads never fall below what is assumed everywhere") {
  garden::Garden garden = support::one_bed("utrecht");
  const ledger::BedLedger ledger = support::ledger_of(garden, "utrecht");
  ledger::BedState state = ledger.opening();
  ledger.idle(state, garden.seasons.past);
  for (std::size_t i = 0; i < state.loads.size(); ++i) {
    CHECK(support::embedded().pathogen(ledger.tracked()[i]).background);
    CHECK(state.loads[i].central == doctest::Approx(0.05));
  }
}

TEST_CASE("records: cool soil in the first weeks spares from clubroot, warm soil from white rot") {
  garden::Garden garden = support::one_bed("minneapolis");
  garden.sightings.push_back(seen("clubroot", "2027-01-10", garden::SightingSeverity::Some));
  garden.sightings.push_back(seen("white-rot-onion", "2027-01-10", garden::SightingSeverity::Some));
  const auto infection = [&](const char* climate, const char* crop, const char* first, int weeks,
                             const char* disease) {
    garden::Garden place = garden;
    place.site.normals = *support::embedded().find_climate(climate);
    const ledger::BedLedger ledger = support::ledger_of(place, climate);
    const auto& tracked = ledger.tracked();
    const auto id = *support::embedded().find_pathogen(disease);
    const auto at = std::find(tracked.begin(), tracked.end(), id) - tracked.begin();
    const auto stand = ledger.make_stand(ledger::spec_of(
        support::planted(*support::embedded().find_crop(crop), *calendar::parse_week(first), weeks,
                         catalogue::Ending::HarvestedCut)));
    return stand.loads[static_cast<std::size_t>(at)].infection;
  };
  // April to mid-July in Minneapolis: the first five weeks are cool, the last are not.
  CHECK(infection("minneapolis", "cabbage-early", "2027-W14", 14, "clubroot") ==
        doctest::Approx(0.3));
  CHECK(infection("minneapolis", "cabbage-early", "2027-W26", 14, "clubroot") ==
        doctest::Approx(1.0));
  // Singapore's soil is above 24 C all year.
  CHECK(infection("singapore", "onion-bulb", "2027-W14", 14, "white-rot-onion") ==
        doctest::Approx(0.3));
  CHECK(infection("minneapolis", "onion-bulb", "2027-W18", 14, "white-rot-onion") ==
        doctest::Approx(1.0));
}
