#include "emit/latest_start.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "aftercrop/climate/window.h"

namespace aftercrop::emit {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr int kWeeksLooked = 30;

std::string_view words(climate::OutOfWindow why) {
  static constexpr std::array<std::string_view, 10> kWords = {
      "",
      "the season has not begun",
      "the soil is too cold",
      "the weeks after are too cold for it",
      "the weeks after are too hot for it",
      "later it is too late in the season for it",
      "it misses the cold spell that it needs",
      "the days are too short",
      "its sowing window ends",
      "its local calendar ends"};
  return kWords[static_cast<std::size_t>(why)];
}

/// Why a start in week `start` does not do; empty = it does.
std::string why_not(const catalogue::Crop& crop, const climate::SiteClimate& site, Week start,
                    Week planned_end, const std::optional<NextStand>& next) {
  const climate::WindowVerdict verdict = climate::judge_start(crop, site, start);
  if (!verdict.open()) return std::string(words(verdict.why));
  std::optional<Week> next_week;
  if (next) next_week = calendar::week_of(next->from);
  const auto due = [&] { return fmt::format("{} follows on {}", next->name, next->from.text()); };
  if (next_week && start >= *next_week) return due();
  if (crop.is_cover()) {
    const Week end = next_week.value_or(planned_end);
    const bool useful =
        start < end && climate::cover_progress(crop, site, {start, end}).stand >= 1.0;
    return useful ? std::string() : "later it does not become a useful stand";
  }
  if (crop.perennial() && crop.productive_years > 1) return {};
  const auto growth = climate::weeks_to_harvest(crop, site, start);
  if (!growth) return "later it does not ripen here";
  const Week end = start + *growth + Weeks(std::max(1, crop.harvest_weeks_min));
  return next_week && end > *next_week ? "its harvest must be over before " + due() : std::string();
}

}  // namespace

LatestDay latest_start(const garden::Planting& planting, const catalogue::Crop& crop,
                       const climate::SiteClimate& site, const std::optional<NextStand>& next) {
  const Week planned = calendar::week_of(planting.from);
  const Week end = garden::weeks_of(planting).past;
  LatestDay latest{planting.from, "nothing hurries it within 30 weeks"};
  for (int i = 0; i < kWeeksLooked; ++i) {
    const Week start = planned + Weeks(i);
    const std::string why = why_not(crop, site, start, end, next);
    if (!why.empty()) {
      latest.why = why;
      return latest;
    }
    latest.day = calendar::monday(start).plus_days(6);
  }
  return latest;
}

}  // namespace aftercrop::emit
