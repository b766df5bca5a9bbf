#pragma once

#include <array>
#include <cstddef>

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/site_rows.h"

namespace aftercrop::climate {

/// A smooth yearly curve through twelve monthly means that returns every mean exactly.
/// Source: Epstein 1991, J. Climate 4:365-368.
class Harmonics {
 public:
  Harmonics() = default;
  /// `highest` = last harmonic kept, 1 to 6 (4 for rough normals).
  explicit Harmonics(const std::array<double, 12>& monthly_means, int highest = 6);
  /// `phase` in months, 0 <= phase < 12 from 1 January.
  [[nodiscard]] double at(double phase) const;
  [[nodiscard]] double mean() const { return mean_; }
  [[nodiscard]] double cosine(int j) const { return cosine_[static_cast<std::size_t>(j)]; }
  [[nodiscard]] double sine(int j) const { return sine_[static_cast<std::size_t>(j)]; }

 private:
  double mean_ = 0.0;
  std::array<double, 7> cosine_{};
  std::array<double, 7> sine_{};
};

/// Month phase of a day: 0 at the start of January, by days of that month in that year.
[[nodiscard]] double phase_of(calendar::Date day);
/// Month phase of day `j` of a year without a leap day: 1.0 is noon of 1 January. Any number is
/// taken, wrapped into 1..365.
[[nodiscard]] double phase_of_year_day(double j);
/// Day 1..365 of a year without a leap day; 29 February is day 59, like the 28th.
[[nodiscard]] int year_day(calendar::Date day);
/// The same for a month and a day.
[[nodiscard]] int year_day(catalogue::MonthDay day);
/// Days from `a` forward to `b` on the circle of 365 days, 0 <= result < 365.
[[nodiscard]] double days_forward(double a, double b);
/// Signed shortest way from `a` to `b` on the circle, -182.5 <= result < 182.5.
[[nodiscard]] double days_apart(double a, double b);

/// Daily maximum and minimum, rain and spread of a place.
class Curves {
 public:
  /// Normals of fewer than eight years are noisy: the two highest harmonics are left out.
  explicit Curves(const catalogue::ClimateNormals& normals);
  [[nodiscard]] double tmax(calendar::Date day) const;  ///< at least tmin + 0.5
  [[nodiscard]] double tmin(calendar::Date day) const;
  [[nodiscard]] double rain(calendar::Date day) const;  ///< mm, even inside a month
  /// On the 365-day circle, j may be fractional and is wrapped.
  [[nodiscard]] double tmin_at(double j) const;
  [[nodiscard]] double tmean_at(double j) const;
  [[nodiscard]] double coldest_day() const { return coldest_day_; }  ///< Jc, 1..365
  [[nodiscard]] double warmest_day() const { return warmest_day_; }  ///< Jw
  [[nodiscard]] double coldest_month_c() const { return coldest_month_c_; }
  [[nodiscard]] double warmest_month_c() const { return warmest_month_c_; }

 private:
  Harmonics tmax_;
  Harmonics tmin_;
  std::array<double, 12> rain_mm_;
  double coldest_day_ = 15;
  double warmest_day_ = 196;
  double coldest_month_c_ = 0;
  double warmest_month_c_ = 0;
};

}  // namespace aftercrop::climate
