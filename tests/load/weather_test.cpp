#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <string>

#include "aftercrop/ledger/account.h"
#include "support/reading.h"
#include "support/sites.h"

// Weather that was measured: what is wrong in the file is told with its line, what is right takes
// the place of the normals.
using namespace aftercrop;
using calendar::Date;
using support::read_garden;
using support::Reading;

namespace {

const std::string kGarden =
    "garden: Lot\nsite: {climate: minneapolis, weather: days.csv}\nseasons: {from: 2027-03-01, "
    "years: 1}\nbeds:\n  - {bed: A, length: 4 m, width: 1 m, soil: loam}\n";

Reading with_days(const std::string& days) {
  return read_garden(kGarden, {{"lot/days.csv", days}});
}

/// One day a line from a date on: a warm summer and a cold winter, `wrong` may change a line.
std::string made_days(const char* first, int count) {
  std::string text = "date,tmax_c,tmin_c,rain_mm\n";
  for (int i = 0; i < count; ++i) {
    const Date day = Date::parse(first)->plus_days(i);
    const double mean = 10.0 - 15.0 * std::cos(2.0 * 3.14159265 * day.day_of_year() / 365.0);
    text += fmt::format("{},{:.1f},{:.1f},{:.1f}\n", day.text(), mean + 5.0, mean - 5.0, 2.0);
  }
  return text;
}

/// The lines at which errors or warnings of one id were told.
std::string lines_of(const Reading& reading, const std::string& id) {
  std::string lines;
  for (const auto& one : reading.said.all()) {
    if (one.id == id) lines += (lines.empty() ? "" : " ") + std::to_string(one.source.line);
  }
  return lines;
}

}  // namespace

TEST_CASE("weather: every mistake is told with its line") {
  const Reading reading = with_days(
      "date,tmax_c,tmin_c,rain_mm\n"
      "2026-06-01,22,11,0\n"
      "2026-06-31,22,11,0\n"     // no such day
      "2026-06-02,eleven,4,0\n"  // no number
      "2026-06-03,8,19,0\n"      // swapped
      "2026-06-01,22,11,0\n"     // twice
      "2026-06-04,95,70,0\n"     // Fahrenheit
      "2026-06-05,22,11,-3\n"
      "2026-06-06,22,11,1\n"
      "2026-06-07,22,11,1\n");
  CAPTURE(reading.text());
  CHECK_FALSE(reading.loaded);
  CHECK(lines_of(reading, "weather-file") == "3 4 5 6 7 8");
}

TEST_CASE("weather: two columns that are swapped are told once") {
  const Reading reading =
      with_days("date,tmin_c,tmax_c\n2026-06-01,22,11\n2026-06-02,23,12\n2026-06-03,21,11\n");
  CAPTURE(reading.text());
  CHECK(reading.count("weather-file") == 1);
  CHECK(reading.text().find("below the minimum on 3 of 3 days") != std::string::npos);
  CHECK(reading.text().find("swapped") != std::string::npos);
}

TEST_CASE("weather: a head that names no columns, an empty file, a file that is not there") {
  CHECK(with_days("day,hot,cold\n2026-06-01,22,11\n")
            .text()
            .find("does not name date, tmax_c, tmin_c") != std::string::npos);
  CHECK(with_days("date,tmax_c,tmin_c\n").count("weather-file") == 1);
  CHECK(read_garden(kGarden).count("weather-file") == 1);
}

TEST_CASE("weather: gaps are told with their days and filled from the normals") {
  const Reading reading = with_days(
      "date,tmax_f,tmin_f,rain_in\n2026-06-01,70,50,0.1\n2026-06-02,70,50,\n2026-06-09,70,50,0\n");
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  CHECK(lines_of(reading, "weather-gap") == "4");
  CHECK(reading.text().find("from 2026-06-03 to 2026-06-08 (6 days)") != std::string::npos);
  CHECK(reading.count("weather-short") == 1);
  const auto& site = reading.loaded->garden.site;
  REQUIRE(site.weather.size() == 3);
  CHECK(site.weather.front().tmax_c == doctest::Approx(21.111).epsilon(1e-4));
  CHECK(*site.weather.front().rain_mm == doctest::Approx(2.54));
  CHECK_FALSE(site.weather[1].rain_mm);
  CHECK(site.normals.id == "minneapolis");
  CHECK_FALSE(site.weather_normals);
}

TEST_CASE("weather: past weeks take the measured days, weeks ahead the normals") {
  const std::string hot = "date,tmax_c,tmin_c,rain_mm\n";
  std::string days = hot;
  for (int i = 0; i < 14; ++i) {
    days += Date::parse("2026-06-01")->plus_days(i).text() + ",38,24,10\n";
  }
  const Reading reading = with_days(days);
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  const garden::Site& site = reading.loaded->garden.site;
  const calendar::WeekSpan span{*calendar::parse_week("2026-W01"),
                                *calendar::parse_week("2028-W01")};
  const climate::SiteClimate plain(site.normals, garden::Shelter::Open, span,
                                   support::site_coefficients());
  const climate::SiteClimate measured(site.normals, garden::Shelter::Open, span,
                                      support::site_coefficients(), site.weather);
  const auto june = *calendar::parse_week("2026-W23");
  CHECK(measured.at(june).air_c == doctest::Approx(31.0));
  CHECK(measured.at(june).rain_mm == doctest::Approx(70.0));
  CHECK(measured.at(june).soil10_c > plain.at(june).soil10_c + 1.0);
  const auto next_year = *calendar::parse_week("2027-W23");
  CHECK(measured.at(next_year).air_c == plain.at(next_year).air_c);
  CHECK(measured.at(next_year).rain_mm == plain.at(next_year).rain_mm);
}

TEST_CASE("weather: five complete years make normals and frosts") {
  const Reading reading = with_days(made_days("2020-01-01", 366 + 5 * 365));
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  const garden::Site& site = reading.loaded->garden.site;
  CHECK(site.weather_normals);
  CHECK(site.normals.years >= 5);
  CHECK(site.normals.tmax_c[6] == doctest::Approx(29.7).epsilon(0.02));  // 10 + 15 + 5 in July
  CHECK(site.normals.tmin_c[0] == doctest::Approx(-9.3).epsilon(0.01));  // 10 - 0.953 x 15 - 5
  CHECK(site.normals.rain_mm[0] == doctest::Approx(62.0));
  // The minimum passes 0 C where cos = 1/3: day 72 and day 293.
  REQUIRE(site.normals.last_frost);
  CHECK(site.normals.last_frost->month == 3);
  REQUIRE(site.normals.first_frost);
  CHECK(site.normals.first_frost->month == 10);
  CHECK(site.normals.frost_years == 1.0);
}

TEST_CASE("site: normals and frost dates of the garden's own win") {
  const Reading reading = read_garden(
      "garden: Lot\nsite: {climate: minneapolis, last_frost: 05-20, normals: {tmax_c: "
      "[1,2,8,14,20,25,28,27,22,15,8,3], tmin_c: [-8,-7,-2,3,9,14,17,16,11,5,0,-5]}}\n"
      "seasons: 2027\nbeds:\n  - {bed: A, length: 4 m, width: 1 m}\n");
  CAPTURE(reading.text());
  REQUIRE(reading.loaded);
  CHECK(reading.loaded->garden.site.own_normals);
  CHECK(reading.loaded->garden.site.own_frosts);
  CHECK(*reading.loaded->garden.site.normals.last_frost == catalogue::MonthDay{5, 20});
}

TEST_CASE("irrigation: of the garden, of a bed, and assumed where nothing is said") {
  const auto beds = [](const std::string& garden, const std::string& bed) {
    const Reading reading =
        read_garden("garden: Lot\nsite: {climate: minneapolis}\nseasons: 2027\n" + garden +
                    "beds:\n  - {bed: A, length: 4 m, width: 1 m" + bed + "}\n");
    CAPTURE(reading.text());
    REQUIRE(reading.loaded);
    return reading.loaded->garden.beds.front().watered;
  };
  CHECK(beds("", ""));
  CHECK_FALSE(beds("irrigation: no\n", ""));
  CHECK(beds("irrigation: no\n", ", irrigation: yes"));
  CHECK_FALSE(beds("", ", irrigation: no"));
}

TEST_CASE("covers: measured dry matter, height and nitrogen of a record") {
  const auto record = [](const std::string& keys, const char* crop = "rye") {
    return read_garden(
        "garden: Lot\nsite: {climate: minneapolis}\nseasons: 2027\n"
        "beds:\n  - {bed: A, length: 4 m, width: 1 m}\n"
        "history:\n  - {bed: A, crop: " +
        std::string(crop) + ", from: 2026-04-01, to: 2026-06-10, " + keys + "}\n");
  };
  const Reading weighed = record("dry_matter: 300 g/m2, nitrogen: 1.8 %");
  CAPTURE(weighed.text());
  REQUIRE(weighed.loaded);
  CHECK(*weighed.loaded->garden.history.front().dry_t_ha == doctest::Approx(3.0));
  CHECK(*weighed.loaded->garden.history.front().n_pct == doctest::Approx(1.8));
  CHECK(record("dry_matter: 3").count("missing-unit") == 1);
  CHECK(record("dry_matter: 3 t/ha", "carrot").count("not-a-cover") == 1);
}
