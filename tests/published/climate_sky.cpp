#include <cmath>
#include <string>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/frost.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/sun.h"
#include "published/climate_tables.h"
#include "support/sites.h"

namespace aftercrop::published {
namespace {

using calendar::Date;
using calendar::Week;
using climate::Curves;
using climate::FrostModel;
using climate::SiteClimate;

SiteClimate site(const char* id) {
  return SiteClimate(support::site_normals(id), garden::Shelter::Open,
                     {*calendar::parse_week("2026-W01"), *calendar::parse_week("2030-W01")},
                     support::site_coefficients());
}

FrostModel frost(const catalogue::ClimateNormals& normals) {
  return FrostModel(normals, Curves(normals), support::site_coefficients());
}

double day_of(const char* month_day) {
  return climate::year_day(*Date::parse(std::string("2027-") + month_day));
}

}  // namespace

void check_curves(support::CheckTable& table) {
  const auto normals = support::site_normals("minneapolis");
  const climate::Harmonics tmin(normals.tmin_c);
  table.about("C1", 'F', "Epstein 1991, J. Climate 4:365; worked out independently");
  table.near("mean", tmin.mean(), 3.758, 0.002);
  table.near("a1", tmin.cosine(1), -14.834, 0.002);
  table.near("b1", tmin.sine(1), -5.231, 0.002);
  table.near("a2", tmin.cosine(2), -0.695, 0.002);
  table.near("b2", tmin.sine(2), -0.367, 0.002);
  table.near("b6", tmin.sine(6), 0.353, 0.002);
  for (std::size_t m = 0; m < 12; ++m) {
    double mean = 0.0;
    for (int i = 0; i < 2000; ++i) {
      mean += tmin.at(static_cast<double>(m) + (i + 0.5) / 2000.0) / 2000.0;
    }
    table.near(fmt::format("mean of month {}", m + 1), mean, normals.tmin_c[m], 0.001);
  }
  table.about("C2", 'F', "the same curve");
  const Curves here(normals);
  for (const auto& [day, c] :
       {std::pair{1, -11.46}, {15, -12.47}, {115, 5.06}, {121, 6.43}, {196, 19.11}, {283, 6.58}}) {
    table.near(fmt::format("minimum of day {}", day), here.tmin_at(day), c, 0.01);
  }
  const Week week = *calendar::parse_week("2027-W20");
  const SiteClimate minneapolis = site("minneapolis");
  table.about("C3", 'F', "worked out independently, twice");
  table.near("maximum of 2027-W20", minneapolis.at(week).tmax_c, 21.75, 0.02);
  table.near("minimum", minneapolis.at(week).tmin_c, 11.13, 0.02);
  table.near("rain", minneapolis.at(week).rain_mm, 23.3, 0.1);
  table.near("reference evaporation", minneapolis.at(week).et0_mm, 29.2, 0.1);
  table.near("degree-days 10 to 30",
             minneapolis.degree_days(week, week + calendar::Weeks(1), 10, 30), 45.1, 0.1);
  const SiteClimate christchurch = site("christchurch");
  table.about("C4", 'F', "worked out independently");
  table.near("maximum of 2027-W20, Christchurch", christchurch.at(week).tmax_c, 15.01, 0.02);
  table.near("minimum", christchurch.at(week).tmin_c, 3.70, 0.02);
  table.near("reference evaporation", christchurch.at(week).et0_mm, 7.8, 0.1);
}

void check_sun(support::CheckTable& table) {
  table.about("C5", 'P', "FAO-56 (Allen et al. 1998), example 8");
  table.near("radiation, 20 S, 3 September", climate::extraterrestrial_radiation(-20.0, 246), 32.2,
             0.05);
  table.about("C6", 'P', "FAO-56, example 9");
  table.near("daylight there", climate::geometric_day_length(-20.0, 246), 11.7, 0.05);
  table.about("C7", 'P', "FAO-56, example 20");
  const double lyon = 45.0 + 43.0 / 60.0;
  const double sun = climate::extraterrestrial_radiation(lyon, 196);
  table.near("evaporation, Lyon, 15 July", climate::reference_evapotranspiration(26.6, 14.8, sun),
             5.0, 0.05);
  table.near("radiation there", sun, 40.55, 0.05);
  table.about("C17", 'P', "growers' reports, 2 to 4 days apart");
  struct Dark {
    double latitude;
    const char* first;
    const char* last;
  };
  for (const Dark& row : {Dark{44.4, "11-03", "02-06"},
                          {36.7, "11-21", "01-19"},
                          {38.3, "11-17", nullptr},
                          {35.2, "11-27", "01-13"}}) {
    int first = 200;
    while (climate::day_length(row.latitude, first) >= 10.0) ++first;
    table.near(fmt::format("first day under ten hours at {} N", row.latitude), first,
               day_of(row.first), 1.0);
    if (row.last == nullptr) continue;
    int last = 100;
    while (climate::day_length(row.latitude, last) >= 10.0) --last;
    table.near(fmt::format("last at {} N", row.latitude), last, day_of(row.last), 1.0);
  }
  table.about("C18", 'F', "polar night and day");
  table.equal("daylight, 70 N, winter", climate::day_length(70.0, 355), 0.0);
  table.equal("radiation", climate::extraterrestrial_radiation(70.0, 355), 0.0);
  table.near("daylight, summer", climate::day_length(70.0, 172), 24.0, 1e-9);
  table.near("radiation", climate::extraterrestrial_radiation(70.0, 172), 42.7, 0.05);
  table.about("C19", 'P', "FAO-56, example 18");
  const double brussels = 50.0 + 48.0 / 60.0;
  table.near("radiation, Brussels", climate::extraterrestrial_radiation(brussels, 187), 41.09,
             0.01);
  table.near("daylight", climate::geometric_day_length(brussels, 187), 16.1, 0.05);
  table.about("C28", 'F', "longest day by site");
  table.near("Minneapolis", site("minneapolis").longest_day_h(), 15.60, 0.02);
  table.near("London", site("london").longest_day_h(), 16.63, 0.02);
  table.near("Miami", site("miami").longest_day_h(), 13.75, 0.02);
  table.near("Seville", site("seville").longest_day_h(), 14.74, 0.02);
  table.holds("too short for a long-day onion in Miami", site("miami").longest_day_h() < 14.25);
}

void check_frost(support::CheckTable& table) {
  table.about("C8", 'P', "NOAA station table, Cass Lake, Minnesota");
  auto lake = support::site_normals("minneapolis");
  lake.first_frost = catalogue::MonthDay{9, 13};
  lake.first_frost_sd_days = 15.0 / 1.2816;
  for (const auto& [chance, date] : {std::pair{0.2, "09-03"},
                                     {0.3, "09-07"},
                                     {0.4, "09-10"},
                                     {0.6, "09-16"},
                                     {0.7, "09-19"},
                                     {0.8, "09-23"},
                                     {0.9, "09-28"}}) {
    table.near(fmt::format("first frost, {:.0f} %", 100 * chance),
               *frost(lake).first_day_at(0.0, chance), day_of(date), 1.0);
  }
  const FrostModel here = frost(support::site_normals("minneapolis"));
  table.about("C9", 'P', "NOAA 50 and 90 % dates, Minneapolis");
  table.near("last frost, 10 %", *here.last_day_at(0.0, 0.1), day_of("05-09"), 1.0);
  table.near("last frost, 90 %", *here.last_day_at(0.0, 0.9), day_of("04-11"), 1.0);
  table.near("first frost, 10 %", *here.first_day_at(0.0, 0.1), day_of("09-24"), 1.0);
  table.about("C10", 'F', "thresholds; station gaps of 7 to 14 days are published");
  table.near("offset in spring", here.last_offset_c(), 5.06, 0.01);
  table.near("in autumn", here.first_offset_c(), 6.58, 0.01);
  table.near("last -2.2 C", *here.last_day(-2.2), day_of("04-13"), 1.0);
  table.near("first -2.2 C", *here.first_day(-2.2), day_of("10-19"), 1.0);
  table.near("first -4.4 C", *here.first_day(-4.4), day_of("10-29"), 1.0);
  table.near("first -10 C", *here.first_day(-10.0), day_of("11-21"), 1.0);
  table.near("last +2 C", *here.last_day(2.0), day_of("05-04"), 1.0);
  struct Crossing {
    const char* site;
    const char* last;
    const char* first;
    const char* listed_last;
    const char* listed_first;
  };
  table.about("C29", 'P', "frost dates of the stations, where only the normals are known");
  for (const Crossing& row : {Crossing{"portland-me", "05-02", "10-18", "05-01", "10-10"},
                              {"utrecht", "04-21", "11-09", "04-25", "11-02"},
                              {"madrid", "03-28", "11-13", "03-24", "11-13"},
                              {"ulaanbaatar", "05-24", "09-15", "05-26", "09-11"}}) {
    auto normals = support::site_normals(row.site);
    normals.last_frost.reset();
    normals.first_frost.reset();
    normals.frost_years = 1.0;
    const FrostModel model = frost(normals);
    const std::string where = row.site;
    table.near(where + ", last, worked out", *model.last_day(0.0), day_of(row.last), 1.0);
    table.near(where + ", first, worked out", *model.first_day(0.0), day_of(row.first), 1.0);
    table.near(where + ", last, listed", *model.last_day(0.0), day_of(row.listed_last), 10.0);
    table.near(where + ", first, listed", *model.first_day(0.0), day_of(row.listed_first), 10.0);
  }
}

}  // namespace aftercrop::published
