#include "aftercrop/climate/water.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "support/sites.h"

using namespace aftercrop;
using calendar::Week;
using calendar::Weeks;
using climate::Drainage;
using climate::Ground;
using climate::SiteClimate;

namespace {

SiteClimate site(const char* id, garden::Shelter shelter = garden::Shelter::Open) {
  return SiteClimate(support::site_normals(id), shelter,
                     {*calendar::parse_week("2026-W01"), *calendar::parse_week("2030-W01")},
                     support::site_coefficients());
}

double year_sum(const Drainage& drainage, Ground ground) {
  double sum = 0.0;
  for (Week week = *calendar::parse_week("2027-W01"); week < *calendar::parse_week("2028-W01");
       ++week) {
    sum += drainage.mm(week, ground);
  }
  return sum;
}

}  // namespace

TEST_CASE("water: store changes by what comes in less what leaves, in any weather") {
  CHECK(rc::check("closure of the bucket", [] {
    climate::Profile profile;
    profile.available_mm = *rc::gen::inRange(20, 200);
    profile.watered = *rc::gen::arbitrary<bool>();
    climate::Water water{profile.available_mm / 2.0, 10.0};
    for (int i = 0; i < 60; ++i) {
      climate::WeekWeather weather;
      weather.air_c = *rc::gen::inRange(-20, 35);
      weather.rain_mm = *rc::gen::inRange(0, 90);
      weather.et0_mm = *rc::gen::inRange(0, 50);
      const climate::Water before = water;
      const auto week = climate::advance(water, weather, 1.0, profile);
      const double change = water.store_mm - before.store_mm;
      RC_ASSERT(std::abs(change - (week.liquid_mm - week.evaporated_mm - week.drained_mm)) < 1e-9);
      const double all = water.store_mm + water.snow_mm - before.store_mm - before.snow_mm;
      const double in = weather.rain_mm + week.irrigation_mm;
      RC_ASSERT(std::abs(all - (in - week.evaporated_mm - week.drained_mm)) < 1e-9);
      RC_ASSERT(water.store_mm >= -1e-9);
      RC_ASSERT(water.store_mm <= profile.available_mm + 1e-9);
      RC_ASSERT(week.drained_mm >= 0.0);
    }
  }));
}

TEST_CASE("water: bare ground drains more than a cover, mulch more than bare") {
  catalogue::Soil loam;
  const SiteClimate london = site("london");
  const Drainage table(london, loam, {});
  CHECK(year_sum(table, Ground::Mulch) > year_sum(table, Ground::Bare));
  CHECK(year_sum(table, Ground::Bare) > year_sum(table, Ground::Cover));
  CHECK(year_sum(table, Ground::Cover) > 50.0);
  CHECK(table.mm(*calendar::parse_week("2027-W28"), Ground::Cover) == 0.0);
}

TEST_CASE("water: frozen weeks do not drain, the thaw does") {
  catalogue::Soil loam;
  const SiteClimate minneapolis = site("minneapolis");
  const Drainage table(minneapolis, loam, {});
  CHECK(table.mm(*calendar::parse_week("2027-W04"), Ground::Bare) == 0.0);
  double thaw = 0.0;
  for (Week week = *calendar::parse_week("2027-W10"); week < *calendar::parse_week("2027-W18");
       ++week) {
    thaw += table.mm(week, Ground::Bare);
  }
  CHECK(thaw > 40.0);
}

TEST_CASE("water: nothing drains in a tunnel, and sand drains no less than loam") {
  catalogue::Soil loam;
  catalogue::Soil sand;
  sand.field_capacity = 0.10;
  sand.wilting_point = 0.05;
  const SiteClimate tunnel = site("london", garden::Shelter::Tunnel);
  const Drainage dry(tunnel, loam, {});
  for (const Ground ground : {Ground::Bare, Ground::Mulch, Ground::Cover, Ground::Crop}) {
    CHECK(year_sum(dry, ground) == 0.0);
  }
  const SiteClimate london = site("london");
  CHECK(year_sum(Drainage(london, sand, {}), Ground::Cover) >=
        year_sum(Drainage(london, loam, {}), Ground::Cover));
}
