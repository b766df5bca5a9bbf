#pragma once

#include <optional>
#include <string_view>

#include "aftercrop/catalogue/site_coefficients.h"

namespace aftercrop::climate {

/// Share of the way to emergence that a seed 12 mm deep in moist soil makes in a day at a constant
/// soil temperature; 0 where it does not come; empty for a crop without a row. Linear in rate
/// between the tested temperatures.
[[nodiscard]] std::optional<double> emergence_rate(std::string_view crop, double soil_c,
                                                   const catalogue::Emergence& rows);

/// Days to emergence at a constant soil temperature; empty where the seed does not come or the
/// crop has no row. Outdoors take 1.3 times as many (common practice).
[[nodiscard]] std::optional<double> emergence_days(std::string_view crop, double soil_c,
                                                   const catalogue::Emergence& rows);

}  // namespace aftercrop::climate
