#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/frost.h"
#include "aftercrop/garden/bed.h"

namespace aftercrop::climate {

/// One week of weather at a site, from normals.
struct WeekWeather {
  double tmax_c = 0.0;    ///< means of the week's seven days
  double tmin_c = 0.0;
  double air_c = 0.0;
  double soil5_c = 0.0;   ///< 2-5 cm: sowing depth
  double soil10_c = 0.0;  ///< 10 cm: mineralisation
  double rain_mm = 0.0;   ///< nil in a tunnel
  double et0_mm = 0.0;
  double daylight_h = 0.0;  ///< sunrise to sunset in mid-week
};

/// The site's curves evaluated for every week of a span, for one kind of shelter. Shelter shifts
/// temperatures and frost, and keeps rain off (tunnel).
class SiteClimate {
 public:
  /// `covered` should reach from the first history record to a year past the last season.
  SiteClimate(const catalogue::ClimateNormals& normals, garden::Shelter shelter,
              calendar::WeekSpan covered);

  [[nodiscard]] calendar::WeekSpan covered() const { return covered_; }
  /// Weeks outside `covered` are clamped to its ends.
  [[nodiscard]] const WeekWeather& at(calendar::Week week) const;

  /// Degree-days (C.d, single sine, horizontal cut-off) of the weeks [a, b).
  [[nodiscard]] double degree_days(calendar::Week a, calendar::Week b, double base_c,
                                   double cap_c) const;
  /// Makes the running sum for a base and cap at hand, so that `degree_days` is two look-ups.
  /// Call before sharing the object between threads.
  void prepare(double base_c, double cap_c);

  [[nodiscard]] const Curves& curves() const { return curves_; }
  [[nodiscard]] const FrostModel& frost() const { return frost_; }
  [[nodiscard]] double latitude() const { return latitude_; }

  /// True where the year has no seasons: windows then follow temperature, rain and day length.
  [[nodiscard]] bool no_season() const;

  /// The season-year of a stand: the year, from one coldest week to the next, that holds the
  /// larger part of its weeks, ties to the later. North: about the calendar year; south: the
  /// season 2027 begins in mid-2027.
  [[nodiscard]] int season_of(calendar::WeekSpan stand) const;
  /// First week of a season-year.
  [[nodiscard]] calendar::Week season_start(int season) const;

 private:
  [[nodiscard]] std::size_t place(calendar::Week week) const;
  [[nodiscard]] std::vector<double> running_sum(double base_c, double cap_c) const;

  calendar::WeekSpan covered_;
  double latitude_;
  Curves curves_;
  FrostModel frost_;
  std::vector<WeekWeather> weeks_;
  std::map<std::pair<double, double>, std::vector<double>> sums_;
};

}  // namespace aftercrop::climate
