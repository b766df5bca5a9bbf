#include "aftercrop/climate/site_climate.h"

#include <doctest/doctest.h>

#include <chrono>
#include <string>

#include "support/sites.h"

using namespace aftercrop;
using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using climate::SiteClimate;
using garden::Shelter;

namespace {

WeekSpan years_2026_to_2031() {
  return {*calendar::parse_week("2026-W01"), *calendar::parse_week("2032-W01")};
}

SiteClimate site(const char* id, Shelter shelter = Shelter::Open) {
  return SiteClimate(support::site_normals(id), shelter, years_2026_to_2031(),
                     support::site_coefficients());
}

WeekSpan stand(const char* from, const char* to) {
  return {calendar::week_of(*Date::parse(from)), calendar::week_of(*Date::parse(to))};
}

}  // namespace

TEST_CASE("site climate: the season-year of a stand is the one that holds most of its weeks") {
  struct Row {
    const char* site;
    const char* from;
    const char* to;
    int season;
  };
  const Row rows[] = {
      {"minneapolis", "2026-05-20", "2026-10-02", 2026},
      {"minneapolis", "2028-05-15", "2028-09-30", 2028},
      {"minneapolis", "2025-10-15", "2026-07-15", 2026},  // garlic: 13 weeks before, 26 after
      {"minneapolis", "2028-10-15", "2029-07-15", 2029},
      {"minneapolis", "2026-04-20", "2026-07-20", 2026},
      {"minneapolis", "2026-06-10", "2027-03-01", 2026},  // leek: 31 weeks before, 6 after
      {"minneapolis", "2029-04-01", "2029-08-20", 2029},
      {"christchurch", "2027-10-15", "2028-03-20", 2027},  // the season 2027/28
      {"christchurch", "2028-01-10", "2028-05-01", 2027},
      {"christchurch", "2027-04-20", "2027-12-20", 2027},  // garlic: 11 weeks before, 24 after
      {"christchurch", "2027-02-01", "2027-04-30", 2026},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.site));
    CAPTURE(std::string(row.from));
    CHECK(site(row.site).season_of(stand(row.from, row.to)) == row.season);
  }
}

// Disease reference, check D26: seasons between two stands = difference of season-years less one.
TEST_CASE("site climate: seasons between stands as in the worked check of family breaks") {
  struct Row {
    WeekSpan first;
    WeekSpan next;
    int between;
  };
  const WeekSpan tomato = stand("2026-05-20", "2026-10-02");
  const Row rows[] = {
      {tomato, stand("2028-05-15", "2028-09-30"), 1},
      {tomato, stand("2029-05-14", "2029-09-30"), 2},
      {tomato, stand("2030-05-13", "2030-09-30"), 3},
      {stand("2025-10-15", "2026-07-15"), stand("2028-10-15", "2029-07-15"), 2},
      {stand("2026-04-20", "2026-07-20"), stand("2028-03-20", "2028-06-20"), 1},
      {stand("2027-04-20", "2027-08-16"), stand("2029-05-14", "2029-10-01"), 1},
      {stand("2026-06-10", "2027-03-01"), stand("2029-04-01", "2029-08-20"), 2},
  };
  const SiteClimate north = site("minneapolis");
  for (const Row& row : rows) {
    CAPTURE(calendar::text(row.next.first));
    CHECK(north.season_of(row.next) - north.season_of(row.first) - 1 == row.between);
  }
}

TEST_CASE("site climate: a southern season begins in mid-year and seasons follow without a gap") {
  for (const support::SiteRow& row : support::kSites) {
    CAPTURE(std::string(row.id));
    const SiteClimate here = site(row.id);
    for (int season = 2020; season < 2040; ++season) {
      const int weeks = (here.season_start(season + 1) - here.season_start(season)).count();
      CHECK(weeks >= 52);
      CHECK(weeks <= 53);
    }
    const std::string start = calendar::text(here.season_start(2027));
    const int month = calendar::monday(here.season_start(2027)).month();
    CAPTURE(start);
    if (row.latitude < -25.0) CHECK((month == 6 || month == 7));
    if (row.latitude > 25.0) CHECK((month == 12 || month == 1 || month == 2));
  }
}

TEST_CASE("site climate: prepared degree-days equal those summed on the spot") {
  SiteClimate plain = site("london");
  SiteClimate prepared = site("london");
  prepared.prepare(4.4, 24.0);
  const Week start = *calendar::parse_week("2027-W10");
  for (int weeks = 0; weeks < 60; weeks += 7) {
    const double a = plain.degree_days(start, start + Weeks(weeks), 4.4, 24.0);
    const double b = prepared.degree_days(start, start + Weeks(weeks), 4.4, 24.0);
    CHECK(a == doctest::Approx(b));
    CHECK((weeks == 0) == (a == 0.0));
  }
  const Date day = calendar::monday(start);
  const climate::ThermalTime cool{4.4, 24.0, true};
  CHECK(plain.days_to_sum(day, 500.0, cool, 300) == prepared.days_to_sum(day, 500.0, cool, 300));
}

TEST_CASE("site climate: weeks outside the covered span are those at its ends") {
  const SiteClimate here = site("london");
  const WeekSpan span = here.covered();
  CHECK(here.at(span.first - Weeks(30)).air_c == here.at(span.first).air_c);
  CHECK(here.at(span.past + Weeks(30)).air_c == here.at(span.past - Weeks(1)).air_c);
  CHECK_FALSE(here.days_to_sum(calendar::monday(span.past - Weeks(2)), 900.0, {}, 300).has_value());
}

TEST_CASE(
    "site climate: shelter warms nights and days, moves the frost and a tunnel keeps rain off") {
  const SiteClimate open = site("minneapolis");
  const SiteClimate fleece = site("minneapolis", Shelter::Fleece);
  const SiteClimate tunnel = site("minneapolis", Shelter::Tunnel);
  const Week april = *calendar::parse_week("2027-W15");
  const Week july = *calendar::parse_week("2027-W29");
  CHECK(fleece.at(april).tmin_c - open.at(april).tmin_c == doctest::Approx(1.5));
  CHECK(tunnel.at(april).tmin_c - open.at(april).tmin_c == doctest::Approx(2.0));
  CHECK(tunnel.at(april).air_c - open.at(april).air_c == doctest::Approx(3.0));  // (2 + 4) / 2
  CHECK(tunnel.at(july).air_c - open.at(july).air_c == doctest::Approx(1.5));    // vented
  CHECK(tunnel.at(july).rain_mm == 0.0);
  CHECK(fleece.at(july).rain_mm == open.at(july).rain_mm);
  CHECK(*tunnel.frost().last_day(0.0) < *fleece.frost().last_day(0.0));
  CHECK(*fleece.frost().last_day(0.0) < *open.frost().last_day(0.0));
  CHECK(*tunnel.frost().first_day(0.0) > *open.frost().first_day(0.0));
}

TEST_CASE("site climate: the hemispheres mirror each other") {
  catalogue::ClimateNormals north = support::site_normals("minneapolis");
  catalogue::ClimateNormals south = north;
  south.latitude = -north.latitude;
  for (std::size_t m = 0; m < 12; ++m) {
    south.tmax_c[(m + 6) % 12] = north.tmax_c[m];
    south.tmin_c[(m + 6) % 12] = north.tmin_c[m];
  }
  south.last_frost = catalogue::MonthDay{10, 25};
  south.first_frost = catalogue::MonthDay{4, 10};
  const SiteClimate a(north, Shelter::Open, years_2026_to_2031(), support::site_coefficients());
  const SiteClimate b(south, Shelter::Open, years_2026_to_2031(), support::site_coefficients());
  REQUIRE(a.frost().last_day(-4.0).has_value());
  REQUIRE(b.frost().last_day(-4.0).has_value());
  CHECK(*b.frost().last_day(-4.0) - *a.frost().last_day(-4.0) ==
        doctest::Approx(183).epsilon(0.02));
  CHECK(a.frost().last_sd() == doctest::Approx(b.frost().last_sd()).epsilon(0.05));
  CHECK(a.season_of(stand("2027-05-01", "2027-09-01")) == 2027);
  CHECK(b.season_of(stand("2027-11-01", "2028-03-01")) == 2027);
}
