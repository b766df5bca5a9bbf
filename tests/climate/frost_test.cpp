#include "aftercrop/climate/frost.h"

#include <doctest/doctest.h>

#include <rapidcheck.h>
#include <string>

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
