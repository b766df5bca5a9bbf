#pragma once

#include <memory>
#include <optional>

#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::load {

/// Monthly normals from daily weather: a first line of names (`date,tmax_c,tmin_c,rain_mm`, or
/// tmax_f, tmin_f, rain_in), then one day a line. A month counts with 25 days or more; fewer than 5
/// years give the warning `weather-short`. Figures that are not in the file are those of `base`.
/// Error: `weather-file`.
[[nodiscard]] std::optional<catalogue::ClimateNormals> read_weather(
    const std::shared_ptr<const diagnostic::SourceFile>& file,
    const catalogue::ClimateNormals& base, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
