#pragma once

#include <array>
#include <map>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/catalogue/site_coefficients.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/frost.h"
#include "aftercrop/garden/bed.h"
#include "aftercrop/garden/weather_day.h"

namespace aftercrop::climate {

/// One week of weather at a site, from normals.
struct WeekWeather {
  double tmax_c = 0.0;  ///< means of the week's seven days
  double tmin_c = 0.0;
  double air_c = 0.0;
  double soil5_c = 0.0;   ///< 2-5 cm: sowing depth, bare ground
  double soil10_c = 0.0;  ///< 10 cm: mineralisation
  double rain_mm = 0.0;   ///< nil in a tunnel
  double et0_mm = 0.0;
  double daylight_h = 0.0;  ///< sunrise to sunset in mid-week
};

/// Thermal time as a crop counts it.
struct ThermalTime {
  double base_c = 0.0;
  double cap_c = 99.0;
  bool short_days_slow = false;  ///< days under ten hours count half (cool crops)
};
/// How `crop` counts.
[[nodiscard]] ThermalTime thermal_time(const catalogue::Crop& crop);

/// What a kind of shelter adds to the night minimum, C.
[[nodiscard]] double night_gain_c(garden::Shelter shelter,
                                  const catalogue::ShelterCoefficients& coefficients);

/// The site's curves evaluated for every week of a span, for one kind of shelter. Shelter shifts
/// temperatures and frost, and keeps rain off (tunnel).
class SiteClimate {
 public:
  /// `covered` should reach from the first history record to a year past the last season. Days
  /// of `measured` (in order, each once) stand in the place of the normals' own. `coefficients` has
  /// to live as long as the site.
  SiteClimate(const catalogue::ClimateNormals& normals, garden::Shelter shelter,
              calendar::WeekSpan covered, const catalogue::SiteCoefficients& coefficients,
              std::span<const garden::WeatherDay> measured = {});

  [[nodiscard]] calendar::WeekSpan covered() const { return covered_; }
  /// Weeks outside `covered` are clamped to its ends.
  [[nodiscard]] const WeekWeather& at(calendar::Week week) const;
  /// Mean air of the weeks [a, b); of week a where that is empty.
  [[nodiscard]] double mean_air_c(calendar::Week a, calendar::Week b) const;
  /// Sunrise to sunset, hours, of any day.
  [[nodiscard]] double daylight_h(calendar::Date day) const;
  /// The longest day of the year, hours.
  [[nodiscard]] double longest_day_h() const;

  /// Degree-days (C.d, single sine, horizontal cut-off) of the weeks [a, b).
  [[nodiscard]] double degree_days(calendar::Week a, calendar::Week b, double base_c,
                                   double cap_c) const;
  /// Makes the running sum for a base and cap at hand, so that `degree_days` and `days_to_sum`
  /// are look-ups. Call before sharing the object between threads.
  void prepare(double base_c, double cap_c);
  /// The same for all that these crops need.
  void prepare(const std::vector<catalogue::Crop>& crops);
  /// Days from `from` (counted as the first) until the thermal time reaches `need`, at least 1;
  /// empty where `limit` days or the end of `covered` come first.
  [[nodiscard]] std::optional<int> days_to_sum(calendar::Date from, double need, ThermalTime time,
                                               int limit) const;

  [[nodiscard]] const Curves& curves() const { return curves_; }
  [[nodiscard]] const FrostModel& frost() const { return frost_; }
  [[nodiscard]] double latitude() const { return latitude_; }
  [[nodiscard]] garden::Shelter shelter() const { return shelter_; }
  [[nodiscard]] const catalogue::SiteCoefficients& coefficients() const { return *coefficients_; }

  /// True where the year has no seasons: windows then follow temperature, rain and day length.
  [[nodiscard]] bool no_season() const;
  /// Where the year's daily mean falls through the yearly mean, and where it rises through it, day
  /// of year: the cool season of places without frost.
  [[nodiscard]] double cool_season_start() const { return cool_start_; }
  [[nodiscard]] double cool_season_end() const { return cool_end_; }
  /// Day of year (circle) on which the mean falls to what it is where the first frost comes in
  /// autumn; empty where it does not.
  [[nodiscard]] std::optional<double> cooled_down() const { return cooled_down_; }
  /// Mean air of the coldest week of the year, in this shelter.
  [[nodiscard]] double coldest_week_c() const { return coldest_week_c_; }
  /// The warmest week's soil at sowing depth within `covered`.
  [[nodiscard]] double warmest_soil_c() const { return warmest_soil_c_; }
  /// The first coldest week at or after `week`.
  [[nodiscard]] calendar::Week next_coldest(calendar::Week week) const;

  /// The season-year of a stand: the year, from one coldest week to the next, that holds the
  /// larger part of its weeks, ties to the later. North: about the calendar year; south: the
  /// season 2027 begins in mid-2027.
  [[nodiscard]] int season_of(calendar::WeekSpan stand) const;
  /// First week of a season-year.
  [[nodiscard]] calendar::Week season_start(int season) const;

 private:
  struct Sums {
    std::vector<double> plain;   ///< before day i of `covered`, one entry more than days
    std::vector<double> slowed;  ///< days under ten hours count half
  };
  struct Day {
    double tmax_c;
    double tmin_c;
    double rain_mm;
  };
  [[nodiscard]] std::size_t place(calendar::Week week) const;
  [[nodiscard]] std::size_t day_place(calendar::Week week) const;
  /// In the open: as measured, else by the curves.
  [[nodiscard]] Day open_day(calendar::Date day,
                             std::span<const garden::WeatherDay> measured) const;
  [[nodiscard]] Day sheltered(const Day& open) const;
  void fill_weeks(std::span<const garden::WeatherDay> measured);
  void fill_soil();
  void fill_seasons();
  [[nodiscard]] Sums running_sums(double base_c, double cap_c) const;
  [[nodiscard]] calendar::Week coldest_week(int season) const;

  const catalogue::SiteCoefficients* coefficients_;
  calendar::WeekSpan covered_;
  garden::Shelter shelter_;
  double latitude_;
  Curves curves_;
  FrostModel frost_;
  std::array<double, 366> daylight_{};  ///< of day 1..365
  std::vector<WeekWeather> weeks_;
  std::vector<Day> days_;
  std::vector<calendar::Week> seasons_;  ///< first weeks of the season-years from first_season_ on
  int first_season_ = 0;
  double cool_start_ = 288;
  double cool_end_ = 105;
  std::optional<double> cooled_down_;
  double coldest_week_c_ = 0.0;
  double warmest_soil_c_ = -99.0;
  std::map<std::pair<double, double>, Sums> sums_;
};

}  // namespace aftercrop::climate
