#pragma once

#include <array>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/site_rows.h"
#include "aftercrop/climate/site_climate.h"

namespace aftercrop::climate {

/// What covers the ground in a week, as far as water is concerned.
enum class Ground { Bare, Mulch, Cover, Crop };
inline constexpr std::size_t kGrounds = 4;

struct WaterOptions {
  double profile_m = 0.6;
  double organic_matter_pct = 3.0;
  bool watered = true;  ///< crops are kept above the depletion limit
};

/// The soil profile as a bucket.
struct Profile {
  double available_mm = 84.0;  ///< between wilting point and field capacity
  double depletion = 0.5;      ///< share that can be used before water limits
  bool watered = false;        ///< kept above the depletion limit
  double snow_below_c = -2.0;  ///< all falls as snow
  double rain_above_c = 2.0;   ///< all falls as rain; linear between
  double melt_mm_week = 21.0;  ///< a degree
};
/// Water at field capacity, volume share: the texture's, and more by organic matter.
[[nodiscard]] double field_capacity(const catalogue::Soil& soil, double organic_matter_pct,
                                    const catalogue::WaterCoefficients& coefficients);

/// A soil's bucket.
[[nodiscard]] Profile profile_of(const catalogue::Soil& soil, const WaterOptions& options,
                                 const catalogue::WaterCoefficients& coefficients);

/// What the bucket holds, mm: water above the wilting point, and snow on top.
struct Water {
  double store_mm = 0.0;
  double snow_mm = 0.0;
};

/// What one week does to it, mm.
struct WaterWeek {
  double liquid_mm = 0.0;  ///< rain and melt, with irrigation
  double irrigation_mm = 0.0;
  double evaporated_mm = 0.0;
  double drained_mm = 0.0;
};

/// Advances the bucket by a week: snow, melt by degree-days, evaporation by `kc` and what water
/// there is, then the spill. Change of store = liquid - evaporated - drained, exactly.
/// Source: FAO-56 chapter 8 form; snow and run-off are simplified (beds are level).
WaterWeek advance(Water& water, const WeekWeather& weather, double kc, const Profile& profile);

/// Share of reference evaporation that a ground gives off: bare soil more in wet weeks (rain above
/// reference evaporation) than in dry, a part of that under mulch, all plants alike.
[[nodiscard]] double evaporation_factor(Ground ground, const WeekWeather& weather,
                                        const catalogue::WaterCoefficients& coefficients);

/// Drainage below the rooted profile, mm a week, as a table over the weeks of the site and the
/// four grounds, each spun up for two years under its own ground. Only crops are watered. Rain is
/// even within a month: on sand in summer a single storm drains what this table does not see.
class Drainage {
 public:
  Drainage(const SiteClimate& site, const catalogue::Soil& soil, const WaterOptions& options);
  /// Weeks outside the covered span are clamped to its ends.
  [[nodiscard]] double mm(calendar::Week week, Ground ground) const;

 private:
  calendar::WeekSpan covered_;
  std::array<std::vector<double>, kGrounds> mm_;
};

}  // namespace aftercrop::climate
