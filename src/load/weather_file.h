#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::load {

/// Daily weather: a first line of names (`date,tmax_c,tmin_c,rain_mm`, or tmax_f, tmin_f, rain_in),
/// then one day a line, in any order. All mistakes are told with their lines. Errors:
/// `weather-file`. Warnings: `weather-gap` (days that are missing between the first and the last).
/// Empty only if an error was reported.
[[nodiscard]] std::optional<std::vector<garden::WeatherDay>> read_weather_days(
    const std::shared_ptr<const diagnostic::SourceFile>& file, diagnostic::Diagnostics& out);

/// Years that make normals of measured days (common practice).
inline constexpr int kYearsOfNormals = 5;

/// Complete years of the scarcest month: a month counts with 25 days or more.
[[nodiscard]] int complete_years(const std::vector<garden::WeatherDay>& days);

/// Monthly normals of measured days: means over the years of monthly means, rain where all days of
/// a month are known, frosts as the median season has them (their spread from ten seasons on).
/// What the days do not tell is that of `base`. Needs at least one complete year.
[[nodiscard]] catalogue::ClimateNormals normals_of(const std::vector<garden::WeatherDay>& days,
                                                   const catalogue::ClimateNormals& base);

}  // namespace aftercrop::load
