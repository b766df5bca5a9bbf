#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/embedded_garden.h"
#include "support/lived_bed.h"

// What rows and records say of crops, diseases and soils, as the ledger takes it.
using namespace aftercrop;
using calendar::Week;
using calendar::Weeks;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

const std::string kBed =
    "garden: Lot\nsite: {climate: minneapolis}\nseasons: {from: 2027-03-01, years: 1}\n"
    "beds:\n  - {bed: A, length: 10 m, width: 1 m, soil: silt loam, organic_matter: 3 %}\n";

garden::Sighting seen(const char* disease, garden::SightingSeverity severity) {
  garden::Sighting sighting;
  sighting.bed = garden::BedId(0);
  sighting.disease = *support::embedded().find_pathogen(disease);
  sighting.date = *calendar::Date::parse("2027-01-04");
  sighting.severity = severity;
  return sighting;
}

std::size_t place_of(const ledger::BedLedger& ledger, const char* disease) {
  const auto id = *ledger.catalogue().find_pathogen(disease);
  const auto at = std::find(ledger.tracked().begin(), ledger.tracked().end(), id);
  REQUIRE(at != ledger.tracked().end());
  return static_cast<std::size_t>(at - ledger.tracked().begin());
}

double sum_of(const ledger::BedAccount& account, Pool pool, Cause cause, Week from, Week past) {
  double sum = 0.0;
  for (const auto& one : account.postings) {
    if (one.pool != pool || one.cause != cause || one.week < from || one.week >= past) continue;
    sum += one.kg_per_ha;
  }
  return sum;
}

}  // namespace

TEST_CASE("attributes: potato bears half of the wilt where lesion nematodes stand too") {
  garden::Garden garden = support::one_bed("minneapolis");
  garden.sightings = {seen("verticillium-wilt", garden::SightingSeverity::Some),
                      seen("lesion-nematode", garden::SightingSeverity::Some)};
  const ledger::BedLedger ledger = support::ledger_of(garden, "minneapolis");
  const std::size_t wilt = place_of(ledger, "verticillium-wilt");
  const std::size_t nematode = place_of(ledger, "lesion-nematode");
  const auto potato = ledger.make_stand(ledger::spec_of(
      support::planted(*support::embedded().find_crop("potato"), *calendar::parse_week("2028-W18"),
                       18, catalogue::Ending::HarvestedPulled)));
  ledger::BedState state = ledger.opening();
  state.loads[wilt].central = state.loads[wilt].cautious = 2.0;
  state.loads[nematode].central = state.loads[nematode].cautious = 0.2;
  const double alone = ledger::met_cautious(state, potato, wilt);
  CHECK(alone == doctest::Approx(1.0));  // 2 over a tolerance of 2
  state.loads[nematode].central = state.loads[nematode].cautious = 0.3;
  CHECK(ledger::met_cautious(state, potato, wilt) == doctest::Approx(2 * alone));
  CHECK(ledger::met_central(state, potato, wilt) == doctest::Approx(2 * alone));
}

TEST_CASE("attributes: varieties of a row may resist one disease, and only that one") {
  catalogue::Catalogue rows = support::embedded();
  const auto tomato = *rows.find_crop("tomato");
  rows.crops[tomato.place()].resistant = {"verticillium-wilt"};
  rows.crops[tomato.place()].tolerant = {"fusarium-wilt-tomato"};
  garden::Garden garden = support::one_bed("minneapolis");
  garden.sightings = {seen("verticillium-wilt", garden::SightingSeverity::Some),
                      seen("fusarium-wilt-tomato", garden::SightingSeverity::Some),
                      seen("white-mould", garden::SightingSeverity::Some)};
  const auto stand_with = [&](const catalogue::Catalogue& with, const char* disease) {
    const ledger::BedLedger ledger(with, garden, garden::BedId(0),
                                   support::climate_of("minneapolis"),
                                   ledger::tracked_pathogens(garden, with, true));
    const auto stand = ledger.make_stand(ledger::spec_of(support::planted(
        tomato, *calendar::parse_week("2028-W22"), 16, catalogue::Ending::HarvestedCut)));
    return stand.loads[place_of(ledger, disease)];
  };
  const auto& plain = support::embedded();
  CHECK(stand_with(rows, "verticillium-wilt").infection ==
        doctest::Approx(stand_with(plain, "verticillium-wilt").infection / 8));
  CHECK(stand_with(rows, "fusarium-wilt-tomato").infection ==
        doctest::Approx(stand_with(plain, "fusarium-wilt-tomato").infection / 3));
  CHECK(stand_with(rows, "white-mould").infection == stand_with(plain, "white-mould").infection);
  CHECK(stand_with(rows, "verticillium-wilt").week.a <
        stand_with(plain, "verticillium-wilt").week.a);
  CHECK(stand_with(rows, "fusarium-wilt-tomato").week.a ==
        stand_with(plain, "fusarium-wilt-tomato").week.a);  // it is fed all the same
}

TEST_CASE("attributes: the tops of a perennial lie on the bed each year, its roots are made once") {
  const auto loaded = support::embedded_garden(
      kBed +
      "history:\n  - {bed: A, crop: asparagus, from: 2022-04-18, to: 2026-08-03, ending: "
      "incorporated}\n");
  const auto account = support::account_of(loaded, "A");
  const auto start = calendar::week_of(*calendar::Date::parse("2022-04-18"));
  int shed = 0;
  for (const auto& one : account.postings) {
    if (one.pool == Pool::Crop && one.cause == Cause::ResidueMulched) {
      ++shed;
      CHECK((one.week - start).count() % 52 == 51);
    }
  }
  CHECK(shed == 4);
  for (const auto& line : account.stands) CHECK(line.stand.renews);
}

TEST_CASE("attributes: an old ley opens the soil in its second year, a young one does not") {
  const auto extra = [&](const char* from) {
    const auto loaded =
        support::embedded_garden(kBed + "history:\n  - {bed: A, crop: lucerne, from: " + from +
                                 ", to: 2025-04-21, ending: incorporated}\n");
    const auto account = support::account_of(loaded, "A");
    const auto end = calendar::week_of(*calendar::Date::parse("2025-04-21"));
    CHECK(sum_of(account, Pool::Mineral, Cause::LeyEffect, account.from, end + Weeks(52)) == 0.0);
    return sum_of(account, Pool::Mineral, Cause::LeyEffect, end + Weeks(52), end + Weeks(104));
  };
  CHECK(extra("2023-04-17") == doctest::Approx(40.0).epsilon(0.02));
  CHECK(extra("2024-05-06") == 0.0);
}

TEST_CASE("attributes: a test is a balance assertion, and a wrong unit is told by both readings") {
  const auto tested = [&](const char* value) {
    const auto loaded = support::embedded_garden(
        kBed + "tests:\n  - {bed: A, date: 2027-05-10, nitrate_n: " + value + ", depth: 30 cm}\n");
    const auto account = support::account_of(loaded, "A");
    REQUIRE(account.tests.size() == 1);
    ledger::TestLine line = account.tests.front();
    line.test = nullptr;  // the garden is gone
    const bool wrong = account.tests.front().wrong_unit();
    return std::pair{line, wrong};
  };
  // What the ledger expects in the sampled 30 cm, which hold 60 % of the profile.
  const int sampled = static_cast<int>(std::lround(0.6 * tested("1 kg/ha").first.expected));
  const auto [agreeing, fine] = tested(fmt::format("{} kg/ha", sampled).c_str());
  CHECK(agreeing.agrees());
  CHECK_FALSE(fine);
  CHECK(agreeing.computed == doctest::Approx(sampled / 0.6));
  // The same number typed as ppm: 3.9 times as much in the sample.
  const auto [mistyped, wrong] = tested(fmt::format("{} ppm", sampled).c_str());
  CHECK_FALSE(mistyped.agrees());
  CHECK(wrong);
  CHECK(mistyped.computed == doctest::Approx(sampled * 0.1 * 30 * 1.3 / 0.6));
  CHECK(mistyped.other_reading == doctest::Approx(sampled / 0.6));
  CHECK(mistyped.difference() == doctest::Approx(mistyped.computed - mistyped.expected));
}

TEST_CASE("attributes: an incubation test replaces the rule of thumb of soil supply") {
  const auto supply = [&](const std::string& test) {
    const auto loaded = support::embedded_garden(kBed + test);
    const auto account = support::account_of(loaded, "A");
    return sum_of(account, Pool::Mineral, Cause::SoilSupply, account.from,
                  account.from + Weeks(52));
  };
  const double thumb = supply("");
  const double poor = supply("tests:\n  - {bed: A, date: 2027-03-01, mineralisable_n: 2 ppm}\n");
  const double rich = supply("tests:\n  - {bed: A, date: 2027-03-01, mineralisable_n: 12 ppm}\n");
  CHECK(poor < thumb);
  CHECK(rich > thumb);
  CHECK(rich == doctest::Approx(6 * poor).epsilon(1e-6));
}

TEST_CASE("attributes: weeds that keep a disease going and what does not help it are in its row") {
  const auto& clubroot =
      support::embedded().pathogen(*support::embedded().find_pathogen("clubroot"));
  CHECK(std::count(clubroot.weeds.begin(), clubroot.weeds.end(), "shepherd's purse") == 1);
  CHECK_FALSE(clubroot.no_help.empty());
}

TEST_CASE("attributes: a load has the span of its published half-lives and efficacies") {
  garden::Garden garden = support::one_bed("minneapolis");
  garden.sightings = {seen("clubroot", garden::SightingSeverity::Some)};
  const auto& rows = support::embedded();
  const ledger::SiteClimates climates(garden, rows);
  const ledger::BedLedger ledger(rows, garden, garden::BedId(0), climates.of(garden::Shelter::Open),
                                 ledger::tracked_pathogens(garden, rows, true));
  std::vector<ledger::BedAccount> accounts = {ledger::account(ledger, garden, {})};
  ledger::add_load_spans(accounts, garden, rows, climates, {});
  int wide = 0;
  for (const auto& event : accounts.front().load_events) {
    CHECK(event.low <= event.load);
    CHECK(event.high >= event.load);
    wide += event.low < event.high ? 1 : 0;
  }
  CHECK(wide >= 2);  // clubroot at the ends of 2028 and 2029
}
