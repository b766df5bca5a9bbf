#pragma once

#include <optional>
#include <string_view>

namespace aftercrop::climate {

/// Share of the way to emergence that a seed 12 mm deep in moist soil makes in a day at a constant
/// soil temperature; 0 where it does not come; empty for a crop without a row. Linear in rate
/// between the tested temperatures.
/// Source: Harrington and Minges 1954, Vegetable Seed Germination, as reprinted in Knott's
/// Handbook (1997) and by Oregon State University Extension.
[[nodiscard]] std::optional<double> emergence_rate(std::string_view crop, double soil_c);

/// Days to emergence at a constant soil temperature; empty where the seed does not come or the
/// crop has no row. Outdoors take 1.3 times as many (common practice).
[[nodiscard]] std::optional<double> emergence_days(std::string_view crop, double soil_c);

}  // namespace aftercrop::climate
