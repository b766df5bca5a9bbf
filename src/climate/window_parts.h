#pragma once

#include "aftercrop/climate/window.h"

namespace aftercrop::climate {

/// Sowing windows of covers, in weeks from the median frosts.
[[nodiscard]] WindowVerdict judge_cover(const catalogue::Crop& crop, const SiteClimate& site,
                                        calendar::Week start);
/// Garlic: cloves go in as the soil cools, with a cold spell to come.
[[nodiscard]] WindowVerdict judge_cloves(const catalogue::Crop& crop, const SiteClimate& site,
                                         calendar::Week start);
/// Earliest date in the spring half, warmth at the start in both halves.
[[nodiscard]] WindowVerdict judge_earliest(const catalogue::Crop& crop, const SiteClimate& site,
                                           calendar::Week start);
/// Day length, bolting, heat: limits of the few crops that have a rule of their own.
[[nodiscard]] WindowVerdict judge_crop_limits(const catalogue::Crop& crop, const SiteClimate& site,
                                              calendar::WeekSpan growth);
/// Day length, hours, at which the type of bulb onion that suits the latitude makes bulbs; 0 for
/// other crops.
[[nodiscard]] double bulbing_hours(const catalogue::Crop& crop, const SiteClimate& site);
/// Does a hardy crop that is not made to stand through winter live through most of them here, as
/// lettuce does by mild coasts? Roots and bulbs would flower after the cold.
[[nodiscard]] bool lives_through_winter(const catalogue::Crop& crop, const SiteClimate& site);
/// Does a start at growth.first and a harvest from growth.past end before cold and frost end it?
[[nodiscard]] WindowVerdict judge_cold_end(const catalogue::Crop& crop, const SiteClimate& site,
                                           calendar::WeekSpan growth);

}  // namespace aftercrop::climate
