#include "cli/crop_figures.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "aftercrop/units/us.h"
#include "cli/measures.h"

namespace aftercrop::cli {
namespace {

using catalogue::Crop;
using catalogue::Range;
using garden::UnitSystem;

constexpr double kGPerOunce = 1000.0 * units::kKgPerOunce;
constexpr double kHaPerAcre = units::kM2PerAcre / 10000.0;
constexpr double kTPerTon = units::kKgPerShortTon / 1000.0;

bool us(UnitSystem units) { return units == UnitSystem::Us; }

/// A unit, and how many of it the catalogue's own is.
struct Scale {
  double factor = 1.0;
  const char* unit = "";
};

std::string range_text(const Range& range, const Scale& scale) {
  const auto said = [&](double value) { return two_digits(value * scale.factor); };
  return fmt::format("{} {} ({} to {})", said(range.typical), scale.unit, said(range.low),
                     said(range.high));
}

Scale yield_scale(const Crop& crop, UnitSystem units) {
  if (crop.yield_unit == catalogue::YieldUnit::Stems) {
    return us(units) ? Scale{units::kM2PerSquareFoot, "stems/ft2"} : Scale{1.0, "stems/m2"};
  }
  return us(units) ? Scale{units::kM2PerSquareFoot / units::kKgPerPound, "lb/ft2"}
                   : Scale{1.0, "kg/m2"};
}

/// kg/ha to what is printed.
Scale nitrogen_scale(UnitSystem units) {
  return us(units) ? Scale{kHaPerAcre / units::kKgPerPound, "lb/acre"} : Scale{1.0, "kg/ha"};
}

/// t/ha to what is printed.
double crop_factor(UnitSystem units) { return us(units) ? kHaPerAcre / kTPerTon : 1.0; }

std::string length(double cm, UnitSystem units) {
  return us(units) ? two_digits(cm / units::kCmPerInch) + " in" : fmt::format("{:g} cm", cm);
}

double degrees(double celsius, UnitSystem units) {
  return us(units) ? std::round(units::fahrenheit(celsius)) : celsius;
}

}  // namespace

bool gives_food(const Crop& crop) { return crop.yield_unit != catalogue::YieldUnit::None; }

std::string typical_yield(const Crop& crop, UnitSystem units) {
  if (crop.is_cover()) {
    return fmt::format("{} {} dry",
                       two_digits(crop.cover->biomass_t_ha.typical * crop_factor(units)),
                       us(units) ? "ton/acre" : "t/ha");
  }
  if (!gives_food(crop)) return "-";
  const Scale scale = yield_scale(crop, units);
  return fmt::format("{} {}", two_digits(crop.yield_per_m2.typical * scale.factor), scale.unit);
}

std::string yield_range(const Crop& crop, UnitSystem units) {
  return range_text(crop.yield_per_m2, yield_scale(crop, units));
}

std::string spacing_words(const Crop& crop, UnitSystem units) {
  std::string text = fmt::format("{} in the row, {} between rows", length(crop.in_row_cm, units),
                                 length(crop.between_row_cm, units));
  if (crop.depth_cm > 0.0) text += fmt::format(", {} deep", length(crop.depth_cm, units));
  return text;
}

std::string degrees_text(double celsius, UnitSystem units) {
  return fmt::format("{:g} {}", degrees(celsius, units), us(units) ? "F" : "C");
}

std::string temperature_words(const Crop& crop, UnitSystem units) {
  return fmt::format("soil {} to come up, air {:g} to {} to grow well",
                     degrees_text(crop.soil_min_c, units), degrees(crop.growth_min_c, units),
                     degrees_text(crop.growth_max_c, units));
}

std::string start_limits(const Crop& crop, UnitSystem units) {
  std::vector<std::string> told;
  if (crop.soil_max_c) {
    told.push_back(fmt::format("no seed in soil above {}", degrees_text(*crop.soil_max_c, units)));
  }
  if (crop.spring_min_c) {
    told.push_back(
        fmt::format("in spring from a mean of {}", degrees_text(*crop.spring_min_c, units)));
  }
  return fmt::format("{}", fmt::join(told, "; "));
}

std::string local_calendar_words(const Crop& crop) {
  std::vector<std::string> spans;
  for (const catalogue::StartDates& dates : crop.local_calendar) {
    spans.push_back(fmt::format("{:02}-{:02} to {:02}-{:02}", dates.first.month, dates.first.day,
                                dates.last.month, dates.last.day));
  }
  return fmt::format("started {} in open ground", fmt::join(spans, ", "));
}

std::string setting_words(const Crop& crop, UnitSystem units) {
  if (!crop.setting) return {};
  std::vector<std::string> told;
  if (crop.setting->night_c < catalogue::Setting::kNoLimit) {
    told.push_back(degrees_text(crop.setting->night_c, units) + " at night");
  }
  if (crop.setting->day_c < catalogue::Setting::kNoLimit) {
    told.push_back(degrees_text(crop.setting->day_c, units) + " by day");
  }
  return fmt::format("hardly above {}, {} weeks before it is picked", fmt::join(told, " or "),
                     crop.setting->weeks);
}

std::string depth_words(double cm, UnitSystem units) { return length(cm, units) + " deep"; }

std::string area_words(double m2, UnitSystem units) {
  if (!us(units)) return fmt::format("{:g} m2", m2);
  return two_digits(m2 / units::kM2PerSquareFoot) + " ft2";
}

std::string residue_words(const catalogue::NitrogenFigures& nitrogen, UnitSystem units) {
  const Scale scale = nitrogen_scale(units);
  return fmt::format("{} % in residue, {} % in roots with {:.0f} % of all; leaves {:.0f} {} in {}",
                     two_digits(nitrogen.residue_n_pct), two_digits(nitrogen.root_n_pct),
                     100.0 * nitrogen.below_ground_share, nitrogen.residual_kg_ha * scale.factor,
                     scale.unit, length(nitrogen.depth_cm, units));
}

std::string uptake_words(const catalogue::NitrogenFigures& nitrogen, UnitSystem units) {
  const Scale scale = nitrogen_scale(units);
  const double yield = nitrogen.yield_t_ha * crop_factor(units);
  const double leaving =
      nitrogen.harvest_kg_per_t * (us(units) ? kTPerTon / units::kKgPerPound : 1.0);
  const auto said = [&](double value) {
    return us(units) ? two_digits(value) : fmt::format("{:g}", value);
  };
  const std::string taken =
      fmt::format("takes up {:.0f} {} at {} {}", nitrogen.uptake_kg_ha * scale.factor, scale.unit,
                  said(yield), us(units) ? "ton/acre" : "t/ha");
  if (leaving <= 0.0) return taken;
  return taken + fmt::format("; {} {} leave with a {}", said(leaving), us(units) ? "lb" : "kg",
                             us(units) ? "ton" : "t");
}

std::string seed_rate(double g_per_m2, UnitSystem units) {
  if (!us(units)) return two_digits(g_per_m2) + " g/m2";
  return two_digits(g_per_m2 / kGPerOunce * 100.0 * units::kM2PerSquareFoot) + " oz/100 ft2";
}

std::string growth_range(const catalogue::CoverFigures& cover, UnitSystem units) {
  return range_text(cover.biomass_t_ha,
                    {crop_factor(units), us(units) ? "ton dry matter/acre" : "t dry matter/ha"});
}

}  // namespace aftercrop::cli
