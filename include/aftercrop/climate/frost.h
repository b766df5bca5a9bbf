#pragma once

#include <array>
#include <optional>

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/site_coefficients.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/climate/curves.h"

namespace aftercrop::climate {

/// The standard normal distribution.
[[nodiscard]] double normal_below(double z);
/// Its inverse, 0 < p < 1, good to 1e-9.
[[nodiscard]] double normal_quantile(double p);

/// When frost of a given depth comes, as normal distributions on the circle of the year: last ~
/// N(mL, sL), first ~ N(mF, sF), dates in days of a 365-day year. Spring runs from the coldest day
/// to the warmest, autumn back, whatever the months are called.
///
/// Normals without frost dates: `frost_years` below 0.5 = frost-free in the median year; otherwise
/// the dates are unknown and are taken where the mean minimum crosses what it is on the median
/// frost date (good to about 10 days). Dates that are given win over the curve: the offset between
/// curve and frost is the site's own. Spreads that are not given follow from how far the date lies
/// from mid-winter.
class FrostModel {
 public:
  /// `gain_c` = what a cover adds to the night minimum.
  FrostModel(const catalogue::ClimateNormals& normals, const Curves& curves,
             const catalogue::SiteCoefficients& coefficients, double gain_c = 0.0);

  /// Median day of the last spring night at or below `killing_c`, day of year (circle); empty
  /// where it is not reached in the median year.
  [[nodiscard]] std::optional<double> last_day(double killing_c) const;
  [[nodiscard]] std::optional<double> first_day(double killing_c) const;
  [[nodiscard]] double last_sd() const { return last_sd_; }
  [[nodiscard]] double first_sd() const { return first_sd_; }
  /// Mean minimum on the median frost date: what the curve stands above the frost.
  [[nodiscard]] double last_offset_c() const { return last_offset_c_; }
  [[nodiscard]] double first_offset_c() const { return first_offset_c_; }
  /// The lowest night of the middle year in the open, C: that of which hardiness zones tell.
  [[nodiscard]] double lowest_c() const { return lowest_c_; }
  /// False where fewer than half of the years have a frost in the open.
  [[nodiscard]] bool has_frost() const { return last_.has_value(); }

  /// The day (circle) that a share `chance` of years still has a night at or below `killing_c` on
  /// or after; empty where the median year does not reach it.
  [[nodiscard]] std::optional<double> last_day_at(double killing_c, double chance) const;
  /// The day by which a share `chance` of years has had one.
  [[nodiscard]] std::optional<double> first_day_at(double killing_c, double chance) const;

  /// Chance that a night at or below `killing_c` still comes on or after `day`, in the spring
  /// half that `day` belongs to; 0 in the autumn half before the first.
  [[nodiscard]] double chance_after(calendar::Date day, double killing_c) const;
  /// Chance that a night at or below `killing_c` has come since the last warmest day, on or
  /// before `day`; stays at the whole winter's chance through the spring half.
  [[nodiscard]] double chance_before(calendar::Date day, double killing_c) const;
  /// First date on or after `from`, outside the spring half, by which a share `chance` of years has
  /// had a night at or below `killing_c`; empty where so many winters do not bring one.
  [[nodiscard]] std::optional<calendar::Date> date_reached(calendar::Date from, double killing_c,
                                                           double chance) const;
  /// Chance that a whole cold season brings a night at or below `killing_c`. The yearly lowest
  /// minimum has a spread between years.
  [[nodiscard]] double chance_in_winter(double killing_c) const;
  /// Days from the median last night at 0 C to `day` of the spring half; negative before it.
  [[nodiscard]] std::optional<double> days_since_last(calendar::Date day) const;
  /// True from the coldest day up to the warmest.
  [[nodiscard]] bool in_spring_half(calendar::Date day) const;

  /// The date nearest to `near` of a day of the 365-day circle.
  [[nodiscard]] static calendar::Date nearest(double year_day, calendar::Date near);

 private:
  void find_dates(const catalogue::ClimateNormals& normals, double curve_at_frost_c);
  [[nodiscard]] double curve(int day) const;
  [[nodiscard]] std::optional<double> level(double outside_c, double offset_c) const;
  [[nodiscard]] double spring_days_after(double median, calendar::Date day) const;
  [[nodiscard]] std::optional<double> crossing(int from, int days, double level_c,
                                               double near) const;

  std::array<double, 366> tmin_{};  ///< mean minimum in the open of day 1..365
  double gain_c_;
  double winter_spread_c_;
  double lowest_c_ = 0.0;
  double share_of_years_ = 1.0;
  int coldest_day_;
  int warmest_day_;
  int spring_days_;  ///< from the coldest day to the warmest
  std::optional<double> last_;
  std::optional<double> first_;
  double last_offset_c_ = 4.9;
  double first_offset_c_ = 4.9;
  double last_sd_ = 11.0;
  double first_sd_ = 11.0;
};

}  // namespace aftercrop::climate
