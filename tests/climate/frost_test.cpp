#include "aftercrop/climate/frost.h"

#include <doctest/doctest.h>

#include <rapidcheck.h>
#include <cmath>
#include <string>

#include "aftercrop/load/load.h"
#include "support/sites.h"

using namespace aftercrop;
using calendar::Date;
using climate::Curves;
using climate::FrostModel;

namespace {

FrostModel frost(const char* id, double gain_c = 0.0) {
  const auto normals = support::site_normals(id);
  return FrostModel(normals, Curves(normals), support::site_coefficients(), gain_c);
}

constexpr double kRounding = 0.5;  // C: a zone is told in whole steps of 5 F

FrostModel embedded_frost(const char* id) {
  const catalogue::Catalogue& rows = load::embedded_catalogue();
  const catalogue::ClimateNormals* normals = rows.find_climate(id);
  REQUIRE(normals != nullptr);
  return FrostModel(*normals, Curves(*normals), rows.coefficients.site);
}

}  // namespace

TEST_CASE("frost: the chance of another frost falls through spring, that of a first one rises") {
  const FrostModel here = frost("minneapolis");
  double before = 1.0;
  for (Date day = *Date::parse("2027-02-01"); day < *Date::parse("2027-07-01");
       day = day.plus_days(1)) {
    const double chance = here.chance_after(day, 0.0);
    CHECK(chance <= before);
    before = chance;
  }
  CHECK(here.chance_after(*Date::parse("2027-04-25"), 0.0) == doctest::Approx(0.5));
  CHECK(here.chance_after(*Date::parse("2027-08-25"), 0.0) == 0.0);
  CHECK(here.chance_before(*Date::parse("2027-10-10"), 0.0) == doctest::Approx(0.5));
  CHECK(here.chance_before(*Date::parse("2027-08-01"), 0.0) < 0.001);
  CHECK(here.chance_before(*Date::parse("2028-01-10"), 0.0) > 0.999);
  CHECK(here.chance_before(*Date::parse("2028-03-10"), 0.0) > 0.99);
}

TEST_CASE("frost: a frost-free site has no frost dates and little risk") {
  for (const char* id : {"singapore", "miami", "honolulu"}) {
    CAPTURE(std::string(id));
    const FrostModel here = frost(id);
    CHECK_FALSE(here.has_frost());
    CHECK_FALSE(here.last_day(0.0).has_value());
    CHECK_FALSE(here.first_day(-4.0).has_value());
    for (Date day = *Date::parse("2027-01-01"); day < *Date::parse("2028-01-01");
         day = day.plus_days(5)) {
      CHECK(here.chance_after(day, 0.0) < 0.2);
      CHECK(here.chance_before(day, 0.0) < 0.2);
    }
  }
}

TEST_CASE("frost: harder frosts come later in autumn and leave earlier in spring") {
  for (const support::SiteRow& row : support::kSites) {
    CAPTURE(std::string(row.id));
    const auto normals = support::site_normals(row.id);
    const FrostModel here(normals, Curves(normals), support::site_coefficients());
    const Curves curves(normals);
    double last = 400.0;
    double first = -1.0;
    for (const double killing : {2.0, 0.0, -2.2, -4.4, -10.0, -20.0}) {
      CAPTURE(killing);
      if (const auto day = here.last_day(killing)) {
        const double since = climate::days_forward(curves.coldest_day(), *day);
        CHECK(since <= last);
        last = since;
      }
      if (const auto day = here.first_day(killing)) {
        const double since = climate::days_forward(curves.warmest_day(), *day);
        CHECK(since >= first);
        first = since;
      }
    }
  }
}

TEST_CASE("frost: without dates the curve gives them, with a low share of years there are none") {
  auto normals = support::site_normals("utrecht");
  normals.last_frost.reset();
  normals.first_frost.reset();
  normals.frost_years = 1.0;
  CHECK(FrostModel(normals, Curves(normals), support::site_coefficients()).has_frost());
  normals.frost_years = 0.2;
  const FrostModel seldom(normals, Curves(normals), support::site_coefficients());
  CHECK_FALSE(seldom.has_frost());
  CHECK(seldom.chance_in_winter(0.0) == doctest::Approx(0.2).epsilon(0.01));
}

TEST_CASE("frost: the nearest date of a day of the year has that day and lies within half a year") {
  CHECK(rc::check("nearest date", [] {
    const int day = *rc::gen::inRange(1, 366);
    const Date near = Date::from_serial(*rc::gen::inRange(-20000, 80000));
    const Date found = FrostModel::nearest(day, near);
    RC_ASSERT(climate::year_day(found) == day);
    RC_ASSERT(std::abs(calendar::days_between(found, near)) <= 184);
  }));
}

TEST_CASE("frost: a cover shifts the killing temperature by its gain") {
  CHECK(*frost("minneapolis", 2.0).first_day(-2.0) == *frost("minneapolis").first_day(-4.0));
  CHECK(*frost("minneapolis", 2.0).first_day(2.0) == *frost("minneapolis").first_day(0.0));
}

TEST_CASE("frost: the lowest night of the middle year lies in the zone of the place") {
  // Two neighbouring half zones, C: those of the maps of 2012 (years 1976-2005) and 2023
  // (1991-2020, from memory); the normals are of years between.
  struct Row {
    const char* site;
    double low_c;
    double high_c;
    const char* zones;
  };
  const Row rows[] = {
      {"bismarck", -37.2, -31.7, "3b, 4a"},
      {"minneapolis", -31.7, -26.1, "4b, 5a"},
      {"burlington-vt", -28.9, -23.3, "5a, 5b"},
      {"madison", -28.9, -23.3, "5a, 5b"},
      {"chicago", -26.1, -20.6, "5b, 6a"},
      {"denver", -26.1, -20.6, "5b, 6a"},
      {"portland-me", -26.1, -20.6, "5b, 6a"},
      {"boston", -20.6, -15.0, "6b, 7a"},
      {"salt-lake-city", -17.8, -12.2, "7a, 7b"},
      {"raleigh", -15.0, -9.4, "7b, 8a"},
      {"albuquerque", -15.0, -9.4, "7b, 8a"},
      {"atlanta", -15.0, -9.4, "7b, 8a"},
      {"dallas", -12.2, -6.7, "8a, 8b"},
      {"portland-or", -9.4, -3.9, "8b, 9a"},
      {"seattle", -9.4, -3.9, "8b, 9a"},
      {"phoenix", -3.9, 1.7, "9b, 10a"},
      {"miami", 1.7, 7.2, "10b, 11a"},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.site));
    CAPTURE(std::string(row.zones));
    const double lowest = embedded_frost(row.site).lowest_c();
    CHECK(lowest >= row.low_c - kRounding);
    CHECK(lowest <= row.high_c + kRounding);
  }
}

TEST_CASE("frost: within 3 C of the mean annual minimum of earlier years") {
  // Mean of the annual minimum, records of 1961 to 1993: ASHRAE Handbook of Fundamentals 1997,
  // Heating and Wind Design Conditions. Winters have warmed since by a degree or two; a winter
  // differs from another by 3 C. Of Rome the spread of days is not known.
  struct Row {
    const char* site;
    double mean_c;
  };
  const Row rows[] = {{"minneapolis", -30.2}, {"atlanta", -12.7},     {"seattle", -7.4},
                      {"boston", -17.6},      {"portland-me", -24.9}, {"madrid", -6.8},
                      {"seville", -1.2},      {"helsinki", -24.4},    {"zurich", -11.5},
                      {"rome", -3.2}};
  for (const Row& row : rows) {
    CAPTURE(std::string(row.site));
    const double warmer = embedded_frost(row.site).lowest_c() - row.mean_c;
    CHECK(std::abs(warmer) <= 3.0);
  }
}

TEST_CASE("frost: half of the winters bring the lowest night of the middle year") {
  for (const char* id : {"minneapolis", "atlanta", "london", "seville", "miami", "hobart"}) {
    CAPTURE(std::string(id));
    const FrostModel here = embedded_frost(id);
    CHECK(here.chance_in_winter(here.lowest_c()) == doctest::Approx(0.5));
    CHECK_FALSE(here.first_day(here.lowest_c() - 0.5).has_value());
    if (here.has_frost()) CHECK(here.first_day(here.lowest_c() + 0.5).has_value());
  }
  // As often as the record says, where frost is rare and where it is usual.
  CHECK(embedded_frost("hobart").chance_in_winter(0.0) == doctest::Approx(0.61).epsilon(0.02));
  CHECK(embedded_frost("phoenix").chance_in_winter(0.0) <= 0.5);
  CHECK(embedded_frost("minneapolis").chance_in_winter(-25.0) > 0.8);
  CHECK(embedded_frost("minneapolis").chance_in_winter(-40.0) < 0.01);
}
