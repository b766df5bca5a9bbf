#pragma once

#include <optional>
#include <vector>

#include "aftercrop/catalogue/site_rows.h"

namespace aftercrop::climate {

/// Normals borrowed from the nearest known site, and how far off that site is.
struct BorrowedNormals {
  catalogue::ClimateNormals normals;  ///< with the user's frost dates and latitude where given
  std::size_t site = 0;               ///< place of the site in the table
  double shift_c = 0.0;               ///< added to all its temperatures, at most 4 C either way
  double wanted_shift_c = 0.0;        ///< what the dates ask for; beyond 4 C ask for own normals
  double last_off_days = 0.0;         ///< the site's last frost is that much later than the user's
  double first_off_days = 0.0;
  double distance_km = 0.0;  ///< only by place
};

/// The site of the same hemisphere whose frost dates (and latitude, if given) are nearest, by
/// (dlat / 5)^2 + (dlast / 14 d)^2 + (dfirst / 14 d)^2, shifted so that its mean minimum passes
/// 4.9 C at the two dates. Without a latitude the dates tell the hemisphere: a last frost before
/// the first inside the calendar year is north. Empty where no site of the table fits.
/// Source: common practice; 4.9 C derived from 55 stations.
[[nodiscard]] std::optional<BorrowedNormals> nearest_by_frost(
    const std::vector<catalogue::ClimateNormals>& sites, catalogue::MonthDay last_frost,
    catalogue::MonthDay first_frost, std::optional<double> latitude = std::nullopt);

/// The site nearest on the globe. Empty only for an empty table.
[[nodiscard]] std::optional<BorrowedNormals> nearest_by_place(
    const std::vector<catalogue::ClimateNormals>& sites, double latitude, double longitude);

/// A named site with the grower's own frost dates: the dates win. Its minima are shifted by the
/// constant that keeps the site's own offset between curve and frost, at most 4 C; what is left
/// over the frost model takes up. Either date may be missing.
[[nodiscard]] catalogue::ClimateNormals corrected_by_frost(
    const catalogue::ClimateNormals& normals, std::optional<catalogue::MonthDay> last_frost,
    std::optional<catalogue::MonthDay> first_frost);

}  // namespace aftercrop::climate
