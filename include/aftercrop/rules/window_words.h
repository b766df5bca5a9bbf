#pragma once

#include <string>
#include <string_view>

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/window.h"
#include "aftercrop/garden/garden.h"

// What a person reads of a start, and of a week that does not allow it.
namespace aftercrop::rules {

/// What follows "started": "while the soil is too cold", "too late to be rooted before winter".
[[nodiscard]] std::string_view why_shut(const climate::WindowVerdict& verdict,
                                        const catalogue::Crop& crop,
                                        const climate::SiteClimate& site);

/// What was found, and what is allowed where that is not plain: "9 C, limit 12 C".
[[nodiscard]] std::string window_figures(const climate::WindowVerdict& verdict,
                                         garden::UnitSystem units);

/// "early cultivar, about 70 days" where a start in that week is counted with one; else empty.
[[nodiscard]] std::string cultivar_words(const catalogue::Crop& crop,
                                         const climate::SiteClimate& site, calendar::Week start);

}  // namespace aftercrop::rules
