#include "cli/crop_seasons.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

#include "aftercrop/rules/window_words.h"
#include "cli/crop_sheet.h"

namespace aftercrop::cli {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;
using climate::Season;
using garden::Shelter;

constexpr Weeks kBefore{60};  // the winter before counts
constexpr Weeks kAfter{220};  // starts of a year, and as long as a harvest may take to come
constexpr std::array<std::string_view, 3> kShelters = {"in open ground", "under fleece",
                                                       "in a tunnel"};

std::string_view started(const Crop& crop) {
  switch (crop.start) {
    case catalogue::Start::Sow:
      return "sown";
    case catalogue::Start::Either:
      return "sown or set out";
    case catalogue::Start::Transplant:
      return "set out";
    default:
      return "planted";
  }
}

/// "2028-05-08 to 2028-07-09 (2028-W19 to 2028-W27)".
std::string days_of(const WeekSpan& span) {
  const Week last = span.past - Weeks(1);
  const std::string weeks = span.length().count() == 1
                                ? calendar::text(span.first)
                                : calendar::text(span.first) + " to " + calendar::text(last);
  return fmt::format("{} to {} ({})", calendar::monday(span.first).text(),
                     calendar::monday(last).plus_days(6).text(), weeks);
}

std::string harvest_words(const Season& season) {
  const std::string first = "first from " + calendar::monday(*season.first_harvest).text();
  if (*season.last_harvest == *season.first_harvest) return first;
  return fmt::format("{}, of the last start from {}", first,
                     calendar::monday(*season.last_harvest).text());
}

std::string early_words(const Crop& crop, const Season& season) {
  std::vector<std::string> spans;
  for (const WeekSpan& span : season.early) spans.push_back(days_of(span));
  if (season.early.front().length() == season.starts.length()) spans = {"whatever the week"};
  return fmt::format("{}: counted with one of {:g} days, others are slow or not ready in time",
                     fmt::join(spans, ", "), crop.days_min);
}

std::string season_row(const Crop& crop, const climate::SiteClimate& site, const Season& season,
                       garden::UnitSystem units) {
  const auto why = [&](const climate::WindowVerdict& verdict) {
    return fmt::format("{} ({})", rules::why_shut(verdict, crop, site),
                       rules::window_figures(verdict, units));
  };
  std::string text = sheet_row(started(crop), days_of(season.starts));
  if (season.first_harvest && !crop.is_cover()) text += sheet_row("harvest", harvest_words(season));
  if (!season.early.empty()) text += sheet_row("early cultivar", early_words(crop, season));
  if (!season.before.open()) text += sheet_row("earlier", why(season.before));
  if (!season.after.open()) text += sheet_row("later", why(season.after));
  return text;
}

/// Seasons of the crop under one shelter.
struct Under {
  Shelter shelter;
  climate::SiteClimate site;
  std::vector<Season> seasons;
};

/// Under each shelter that a bed has, open ground first.
std::vector<Under> look(const catalogue::Catalogue& catalogue, const Crop& crop,
                        const garden::Garden& garden) {
  const Week from = garden.seasons.first;
  std::vector<Under> found;
  for (const Shelter shelter : {Shelter::Open, Shelter::Fleece, Shelter::Tunnel}) {
    const bool used = std::any_of(garden.beds.begin(), garden.beds.end(),
                                  [&](const garden::Bed& bed) { return bed.shelter == shelter; });
    if (!used) continue;
    climate::SiteClimate site = climate_about(catalogue, garden, shelter, from);
    site.prepare(crop.base_c, crop.cap_c);
    std::vector<Season> seasons = climate::seasons_of(crop, site, from);
    found.push_back({shelter, std::move(site), std::move(seasons)});
  }
  return found;
}

}  // namespace

climate::SiteClimate climate_about(const catalogue::Catalogue& catalogue,
                                   const garden::Garden& garden, Shelter shelter, Week week) {
  return {
      garden.site.normals, shelter, {week - kBefore, week + kAfter}, catalogue.coefficients.site};
}

emit::SeasonsHere seasons_here(const catalogue::Catalogue& catalogue, const Crop& crop,
                               const garden::Garden& garden) {
  emit::SeasonsHere here{garden.site.normals.name, {}};
  for (Under& under : look(catalogue, crop, garden)) {
    here.under.push_back({under.shelter, std::move(under.seasons)});
  }
  return here;
}

std::string season_rows(const catalogue::Catalogue& catalogue, const Crop& crop,
                        const garden::Garden& garden) {
  std::string text;
  for (const Under& under : look(catalogue, crop, garden)) {
    const std::string place = fmt::format("{}, {}", garden.site.normals.name,
                                          kShelters[static_cast<std::size_t>(under.shelter)]);
    if (under.seasons.empty()) {
      text += sheet_row("here", fmt::format("no week of the year lets it start at {}", place));
      continue;
    }
    text += sheet_row("here", "at " + place);
    for (const Season& season : under.seasons) {
      text += season_row(crop, under.site, season, garden.units);
    }
  }
  return text;
}

}  // namespace aftercrop::cli
