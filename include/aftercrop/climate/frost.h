#pragma once

#include <optional>

#include "aftercrop/calendar/date.h"
#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/climate/curves.h"

namespace aftercrop::climate {

/// When frost of a given depth comes, as normal distributions on the circle of the year
/// (climate reference: last ~ N(mL, sL), first ~ N(mF, sF), dates in days of a 365-day year).
class FrostModel {
 public:
  /// `gain_c` = what a cover adds to the night minimum.
  FrostModel(const catalogue::ClimateNormals& normals, const Curves& curves, double gain_c = 0.0);

  /// Median day of the last spring night at or below `killing_c`, day of year (circle); empty
  /// where it is not reached in the median year.
  [[nodiscard]] std::optional<double> last_day(double killing_c) const;
  [[nodiscard]] std::optional<double> first_day(double killing_c) const;
  [[nodiscard]] double last_sd() const { return last_sd_; }
  [[nodiscard]] double first_sd() const { return first_sd_; }

  /// Chance that a night at or below `killing_c` still comes on or after `day`, in the spring
  /// half that `day` belongs to; 0 in the autumn half before the first.
  [[nodiscard]] double chance_after(calendar::Date day, double killing_c) const;
  /// Chance that a night at or below `killing_c` has come since the last warmest day, on or
  /// before `day`; stays near 1 through the cold half.
  [[nodiscard]] double chance_before(calendar::Date day, double killing_c) const;

  /// The date nearest to `near` of a day of the 365-day circle.
  [[nodiscard]] static calendar::Date nearest(double year_day, calendar::Date near);

 private:
  Curves curves_;
  double gain_c_;
  double share_of_years_;
  std::optional<double> last_;
  std::optional<double> first_;
  double last_offset_c_ = 4.9;
  double first_offset_c_ = 4.9;
  double last_sd_ = 11.0;
  double first_sd_ = 11.0;
};

}  // namespace aftercrop::climate
