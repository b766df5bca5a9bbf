#pragma once

#include <map>
#include <utility>
#include <vector>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::load {

/// What a start in one week of the year leads to, by catalogue and normals.
struct Run {
  bool may_start = false;  ///< the week lies in the sowing window, and the crop ripens
  calendar::Weeks to_harvest;
  calendar::Weeks to_end;       ///< the bed is free again
  calendar::Weeks to_soon_end;  ///< the same, of the shortest harvest
};

/// Usual lengths of stands at a site. Normals are alike every year, so each crop and week of the
/// year is worked out once, when it is first asked for.
class StandYears {
 public:
  StandYears(const catalogue::ClimateNormals& normals,
             const catalogue::SiteCoefficients& coefficients);

  [[nodiscard]] const Run& run(catalogue::CropId id, const catalogue::Crop& crop,
                               calendar::Week start);
  /// All weeks in which a stand of the season-year may start, in order.
  [[nodiscard]] const std::vector<calendar::Week>& starts(catalogue::CropId id,
                                                          const catalogue::Crop& crop, int year);
  /// The same without ends that only hold in a year whose weeks begin some days later or earlier.
  [[nodiscard]] std::vector<calendar::Week> sure_starts(catalogue::CropId id,
                                                        const catalogue::Crop& crop, int year);
  /// Middle of the longest run of those weeks; where there is none, a week of the growing season
  /// all the same: that it is too early or too late is for a check to say.
  [[nodiscard]] calendar::Week middle_start(catalogue::CropId id, const catalogue::Crop& crop,
                                            int year);
  /// Whether frost surely ends a cover that stands in these weeks.
  [[nodiscard]] bool dies_of_frost(const catalogue::Crop& crop, calendar::WeekSpan weeks) const;
  /// First week of a season-year.
  [[nodiscard]] calendar::Week season_start(int year) const { return site_.season_start(year); }
  /// The season-year that holds a week.
  [[nodiscard]] int season_of(calendar::Week week) const {
    return site_.season_of({week, week + calendar::Weeks(1)});
  }

 private:
  climate::SiteClimate site_;
  std::map<std::pair<catalogue::CropId, int>, Run> runs_;  ///< by week of the year
  std::map<std::pair<catalogue::CropId, int>, std::vector<calendar::Week>> starts_;
};

}  // namespace aftercrop::load
