#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "aftercrop/climate/frost.h"
#include "aftercrop/load/load.h"

// The lowest night of the middle year at the embedded climates against published ones.
using namespace aftercrop;
using climate::Curves;
using climate::FrostModel;

namespace {

constexpr double kRounding = 0.5;  // C: a zone is told in whole steps of 5 F

FrostModel frost(const char* id) {
  const catalogue::Catalogue& rows = load::embedded_catalogue();
  const catalogue::ClimateNormals* normals = rows.find_climate(id);
  REQUIRE(normals != nullptr);
  return FrostModel(*normals, Curves(*normals), rows.coefficients.site);
}

}  // namespace

TEST_CASE("hardiness zones: the lowest night of the middle year lies in the zone of the place") {
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
    const double lowest = frost(row.site).lowest_c();
    CHECK(lowest >= row.low_c - kRounding);
    CHECK(lowest <= row.high_c + kRounding);
  }
}

TEST_CASE("hardiness zones: within 3 C of the mean annual minimum of earlier years") {
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
    const double warmer = frost(row.site).lowest_c() - row.mean_c;
    CHECK(std::abs(warmer) <= 3.0);
  }
}

TEST_CASE("hardiness zones: half of the winters bring the lowest night of the middle year") {
  for (const char* id : {"minneapolis", "atlanta", "london", "seville", "miami", "hobart"}) {
    CAPTURE(std::string(id));
    const FrostModel here = frost(id);
    CHECK(here.chance_in_winter(here.lowest_c()) == doctest::Approx(0.5));
    CHECK_FALSE(here.first_day(here.lowest_c() - 0.5).has_value());
    if (here.has_frost()) CHECK(here.first_day(here.lowest_c() + 0.5).has_value());
  }
  // As often as the record says, where frost is rare and where it is usual.
  CHECK(frost("hobart").chance_in_winter(0.0) == doctest::Approx(0.61).epsilon(0.02));
  CHECK(frost("phoenix").chance_in_winter(0.0) <= 0.5);
  CHECK(frost("minneapolis").chance_in_winter(-25.0) > 0.8);
  CHECK(frost("minneapolis").chance_in_winter(-40.0) < 0.01);
}
