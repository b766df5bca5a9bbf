#pragma once

namespace aftercrop::climate {

/// Extraterrestrial radiation, MJ m-2 d-1, of day `j` (1..365). Polar day and night are clamped.
/// Source: Allen et al. 1998, FAO Irrigation and Drainage Paper 56, equations 21, 23-25.
[[nodiscard]] double extraterrestrial_radiation(double latitude_deg, double j);
/// Geometric day length in hours. Source: the same, equation 34.
[[nodiscard]] double geometric_day_length(double latitude_deg, double j);
/// Sunrise to sunset in hours as almanacs count it: upper limb and refraction (-0.833 degrees).
/// The one for day-length rules and for printing.
[[nodiscard]] double day_length(double latitude_deg, double j);
/// Reference evapotranspiration, mm a day, never negative.
/// Source: Hargreaves and Samani 1985, in FAO-56 equation 52. Over-predicts by 10-15 % in oceanic
/// climates.
[[nodiscard]] double reference_evapotranspiration(double tmax_c, double tmin_c,
                                                  double radiation_mj);

}  // namespace aftercrop::climate
