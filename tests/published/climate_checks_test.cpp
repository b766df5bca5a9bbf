#include <string>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/degree_days.h"
#include "published/climate_tables.h"
#include "support/embedded_garden.h"
#include "support/sites.h"

// The worked checks C1 to C33 of climate, water and windows: published examples, and figures worked
// out independently from the published formulas on the sites' normals. Misses are listed in
// README.md too.
using namespace aftercrop;

TEST_CASE("published: the climate table") {
  support::CheckTable table("climate");
  published::check_curves(table);
  published::check_sun(table);
  published::check_frost(table);
  published::check_soil_heat(table);
  published::check_heat_sums(table);
  published::check_water(table);
  published::check_weeks(table);
  published::check_seasons(table);
  table.finish('C', 33, support::file_text(AFTERCROP_ROOT "/README.md"));
}

// The catalogue's daily growth is derived from five north-eastern stations: 1 May to 15 July for
// cool crops, June to August for warm ones.
TEST_CASE("published climate: catalogue degree-days a day come from the five stations") {
  struct Row {
    double base;
    double cap;
  };
  const auto day_of = [](const char* text) {
    return climate::year_day(*calendar::Date::parse(text));
  };
  for (const Row& row :
       {Row{0, 21}, {1.7, 24}, {4.4, 24}, {7.2, 29}, {8.9, 30}, {10, 30}, {12.8, 32}, {15.6, 35}}) {
    const bool cool = climate::cool_crop(row.base);
    const int from = day_of(cool ? "2027-05-01" : "2027-06-01");
    const int to = day_of(cool ? "2027-07-15" : "2027-08-31");
    double mean = 0.0;
    for (const char* id : {"burlington-vt", "madison", "portland-me", "chicago", "boston"}) {
      const climate::Curves here(support::site_normals(id));
      for (int j = from; j <= to; ++j) {
        const calendar::Date day = calendar::Date::parse("2027-01-01")->plus_days(j - 1);
        mean += climate::sine_degree_days(here.tmax(day), here.tmin(day), row.base, row.cap) /
                (5.0 * (to - from + 1));
      }
    }
    CAPTURE(row.base);
    CHECK(std::abs(climate::catalogue_degree_days(row.base,
                                                  support::site_coefficients().catalogue_days) -
                   mean) < 0.1);
  }
}
