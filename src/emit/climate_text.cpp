#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/emit/ledger_text.h"
#include "emit/ledger_screen.h"

namespace aftercrop::emit {
namespace {

/// How far monthly means of so many years can be relied on (common practice).
std::string quality(int years) {
  if (years >= 15) return "good";
  return years >= 8 ? "fair" : "rough: few years";
}

std::string normals_text(const garden::Site& site) {
  const catalogue::ClimateNormals& normals = site.normals;
  if (site.weather_normals) {
    return fmt::format("monthly means and frosts of {} ({} complete years: {})", site.weather_file,
                       normals.years, quality(normals.years));
  }
  if (site.own_normals) return "monthly means as typed in the garden";
  std::string text = fmt::format("{} ({})", normals.name, site.chosen);
  if (!normals.period.empty()) text += ", " + normals.period;
  if (normals.years > 0) {
    text += fmt::format(", at least {} years: {}", normals.years, quality(normals.years));
  }
  for (const catalogue::Citation& source : normals.sources) text += "; " + source.text;
  return text;
}

/// "Deutscher Wetterdienst, CC BY 4.0": who measured, and the licence that asks to be named.
std::string attribution(const std::vector<catalogue::Citation>& sources) {
  constexpr std::string_view kLicence = "CC BY 4.0";
  std::string text;
  for (const catalogue::Citation& source : sources) {
    const std::string who = source.text.substr(0, source.text.find(','));
    if (text.find(who) != std::string::npos) continue;
    text += (text.empty() ? "" : "; ") + who;
    if (source.text.find(kLicence) != std::string::npos) text += fmt::format(", {}", kLicence);
  }
  return text;
}

}  // namespace

std::string climate_line(const garden::Site& site) {
  const catalogue::ClimateNormals& normals = site.normals;
  std::string text;
  if (site.weather_normals) {
    text =
        fmt::format("{}, {} years ({})", site.weather_file, normals.years, quality(normals.years));
  } else if (site.own_normals) {
    text = "monthly means as typed in the garden";
  } else {
    text = fmt::format("{}, {} ({}); {}", normals.name, normals.period, quality(normals.years),
                       attribution(normals.sources));
  }
  if (site.own_frosts) text += "; your frost dates";
  return diagnostic::printable(text);
}

std::string climate_text(const garden::Site& site, int width) {
  std::string text = "Climate: " + normals_text(site);
  if (site.own_frosts) text += "; frost dates as typed in the garden";
  if (!site.weather.empty()) {
    text += fmt::format("; measured days of {} from {} to {} ({})", site.weather_file,
                        site.weather.front().date.text(), site.weather.back().date.text(),
                        site.weather.size());
  }
  return folded(diagnostic::printable(text), std::max(20, width), 2);
}

}  // namespace aftercrop::emit
