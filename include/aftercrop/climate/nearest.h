#pragma once

#include <optional>
#include <vector>

#include "aftercrop/catalogue/site_coefficients.h"
#include "aftercrop/catalogue/site_rows.h"

namespace aftercrop::climate {

/// Normals borrowed from the nearest known site, and how far off that site is.
struct BorrowedNormals {
  catalogue::ClimateNormals normals;  ///< with the user's frost dates and latitude where given
  std::size_t site = 0;               ///< place of the site in the table
  double shift_c = 0.0;               ///< added to all its temperatures, within the greatest shift
  double wanted_shift_c = 0.0;        ///< what the dates ask for; beyond it ask for own normals
  double last_off_days = 0.0;         ///< the site's last frost is that much later than the user's
  double first_off_days = 0.0;
  double distance_km = 0.0;  ///< only by place
};

/// The site of the same hemisphere whose frost dates (and latitude, if given) are nearest, by
/// latitude and dates each on its own scale, shifted so that its mean minimum at the two dates is
/// that of a median frost date. Without a latitude the dates tell the hemisphere: a last frost
/// before the first inside the calendar year is north. Empty where no site of the table fits.
[[nodiscard]] std::optional<BorrowedNormals> nearest_by_frost(
    const std::vector<catalogue::ClimateNormals>& sites, catalogue::MonthDay last_frost,
    catalogue::MonthDay first_frost, const catalogue::FrostCoefficients& coefficients,
    std::optional<double> latitude = std::nullopt);

/// The site nearest on the globe. Empty only for an empty table.
[[nodiscard]] std::optional<BorrowedNormals> nearest_by_place(
    const std::vector<catalogue::ClimateNormals>& sites, double latitude, double longitude);

/// A named site with the grower's own frost dates: the dates win. Its minima are shifted by the
/// constant that keeps the site's own offset between curve and frost, within the greatest shift;
/// what is left over the frost model takes up. Either date may be missing.
[[nodiscard]] catalogue::ClimateNormals corrected_by_frost(
    const catalogue::ClimateNormals& normals, std::optional<catalogue::MonthDay> last_frost,
    std::optional<catalogue::MonthDay> first_frost,
    const catalogue::SiteCoefficients& coefficients);

}  // namespace aftercrop::climate
