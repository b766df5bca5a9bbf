#include "aftercrop/climate/nearest.h"

#include <doctest/doctest.h>

#include <string>

#include <cmath>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/frost.h"
#include "support/sites.h"

using namespace aftercrop;
using catalogue::MonthDay;

namespace {

std::vector<catalogue::ClimateNormals> all_sites() {
  std::vector<catalogue::ClimateNormals> sites;
  for (const auto& row : support::kSites) sites.push_back(support::site_normals(row.id));
  return sites;
}

}  // namespace

TEST_CASE("nearest: a site's own frost dates find it or its like, hardly shifted") {
  const auto sites = all_sites();
  for (const char* id : {"minneapolis", "christchurch", "utrecht"}) {
    CAPTURE(std::string(id));
    const auto own = support::site_normals(id);
    const auto found = climate::nearest_by_frost(sites, *own.last_frost, *own.first_frost,
                                                 support::site_coefficients().frost, own.latitude);
    REQUIRE(found.has_value());
    CHECK(found->normals.id == id);
    CHECK(found->last_off_days == 0.0);
    CHECK(std::abs(found->shift_c) < 2.5);
  }
}

TEST_CASE("nearest: the dates tell the hemisphere and the curve passes 4.9 C at them") {
  const auto sites = all_sites();
  const auto north =
      climate::nearest_by_frost(sites, {5, 8}, {10, 5}, support::site_coefficients().frost);
  const auto south =
      climate::nearest_by_frost(sites, {10, 20}, {4, 25}, support::site_coefficients().frost);
  REQUIRE(north.has_value());
  REQUIRE(south.has_value());
  CHECK(north->normals.latitude > 0.0);
  CHECK(south->normals.latitude < 0.0);
  CHECK(*north->normals.last_frost == MonthDay{5, 8});
  const climate::Curves curves(north->normals);
  const double mean = (curves.tmin_at(climate::year_day(MonthDay{5, 8})) +
                       curves.tmin_at(climate::year_day(MonthDay{10, 5}))) /
                      2.0;
  CHECK(mean == doctest::Approx(4.9));
  CHECK(north->shift_c == north->wanted_shift_c);
}

TEST_CASE("nearest: the shift stops at four degrees and says what was wanted") {
  std::vector<catalogue::ClimateNormals> sites = {support::site_normals("london")};
  const auto found =
      climate::nearest_by_frost(sites, {6, 10}, {9, 5}, support::site_coefficients().frost);
  REQUIRE(found.has_value());
  CHECK(found->shift_c == -4.0);
  CHECK(found->wanted_shift_c < -4.0);
  CHECK_FALSE(
      climate::nearest_by_frost(sites, {10, 20}, {4, 25}, support::site_coefficients().frost)
          .has_value());  // no southern site
}

TEST_CASE("nearest: by place on the globe, across the date line too") {
  const auto sites = all_sites();
  CHECK(climate::nearest_by_place(sites, -42.9, 147.3)->normals.id == "hobart");
  CHECK(climate::nearest_by_place(sites, 51.4, -0.3)->normals.id == "london");
  CHECK(climate::nearest_by_place(sites, 21.0, -158.0)->normals.id == "honolulu");
  CHECK(climate::nearest_by_place(sites, 51.4, -0.3)->distance_km < 50.0);
  CHECK_FALSE(climate::nearest_by_place({}, 0.0, 0.0).has_value());
}

TEST_CASE("nearest: own frost dates correct a named site") {
  const auto normals = support::site_normals("minneapolis");
  const auto hollow = climate::corrected_by_frost(normals, MonthDay{5, 12}, MonthDay{9, 25},
                                                  support::site_coefficients());
  CHECK(*hollow.last_frost == MonthDay{5, 12});
  CHECK(hollow.tmin_c[0] < normals.tmin_c[0]);
  CHECK(hollow.tmax_c == normals.tmax_c);
  const climate::FrostModel frost(hollow, climate::Curves(hollow), support::site_coefficients());
  CHECK(*frost.last_day(0.0) == climate::year_day(MonthDay{5, 12}));
  const auto one = climate::corrected_by_frost(normals, MonthDay{5, 12}, std::nullopt,
                                               support::site_coefficients());
  CHECK(climate::year_day(*one.first_frost) < climate::year_day(*normals.first_frost));
  const auto same = climate::corrected_by_frost(normals, normals.last_frost, normals.first_frost,
                                                support::site_coefficients());
  CHECK(same.tmin_c[3] == doctest::Approx(normals.tmin_c[3]));
}
