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

/// Drainage below the rooted profile, mm a week, as a table over the weeks of the site and the
/// four grounds, each spun up for two years under its own ground.
/// Source: FAO-56 style bucket, climate reference section 5.5.
class Drainage {
 public:
  Drainage(const SiteClimate& site, const catalogue::Soil& soil, const WaterOptions& options);
  [[nodiscard]] double mm(calendar::Week week, Ground ground) const;

 private:
  calendar::WeekSpan covered_;
  std::array<std::vector<double>, kGrounds> mm_;
};

}  // namespace aftercrop::climate
