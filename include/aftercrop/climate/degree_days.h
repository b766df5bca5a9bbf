#pragma once

#include "aftercrop/catalogue/site_coefficients.h"

namespace aftercrop::climate {

/// Degree-days of one day above `base_c` with a horizontal cut-off at `cap_c`, single sine: what
/// the day gives above the base less what it gives above the cap. Celsius; Fahrenheit degree-days
/// are 1.8 times as many.
/// Source: the usual single-sine form of crop and pest extension work (University of California,
/// Oregon State University).
[[nodiscard]] double sine_degree_days(double tmax_c, double tmin_c, double base_c, double cap_c);
/// The same with a triangular day.
[[nodiscard]] double triangle_degree_days(double tmax_c, double tmin_c, double base_c,
                                          double cap_c);

/// Mean degree-days a day that catalogue days to maturity stand for, by the crop's base: a
/// northern United States spring for cool crops, its summer for warm ones. A crop's need is its
/// days to maturity times this.
[[nodiscard]] double catalogue_degree_days(double base_c, const catalogue::CatalogueDays& days);

/// A cool crop by its base: autumn days under ten hours then count half.
[[nodiscard]] constexpr bool cool_crop(double base_c) { return base_c < 6.0; }

/// Cold that counts towards flowering of carrot past its juvenile stage, units a day.
/// Source: after Flowering and bolting in carrot I, J. Hort. Sci. 65:423-429 (1990), cv. Chantenay:
/// base -1 C, best 6.5 C, upper 16 C.
[[nodiscard]] double carrot_cold_units(double mean_c);

}  // namespace aftercrop::climate
