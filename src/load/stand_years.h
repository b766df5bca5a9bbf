#pragma once

#include <map>
#include <optional>
#include <utility>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::load {

/// What a start in one week of the year leads to, by catalogue and normals.
struct Run {
  bool may_start = false;  ///< the week lies in the sowing window, and the crop ripens
  calendar::Weeks to_harvest;
  calendar::Weeks to_end;  ///< the bed is free again
};

/// Usual lengths of stands at a site. Normals are alike every year, so each crop and week of the
/// year is worked out once, when it is first asked for.
class StandYears {
 public:
  explicit StandYears(const catalogue::ClimateNormals& normals);

  [[nodiscard]] const Run& run(catalogue::CropId id, const catalogue::Crop& crop,
                               calendar::Week start);
  /// Middle of the longest run of weeks in which a stand of the season-year may start; empty where
  /// no week may.
  [[nodiscard]] std::optional<calendar::Week> middle_start(catalogue::CropId id,
                                                           const catalogue::Crop& crop, int year);

 private:
  climate::SiteClimate site_;
  std::map<std::pair<catalogue::CropId, int>, Run> runs_;  ///< by week of the year
  std::map<std::pair<catalogue::CropId, int>, std::optional<calendar::Week>> starts_;
};

}  // namespace aftercrop::load
