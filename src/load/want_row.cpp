#include "load/want_row.h"

#include <fmt/format.h>

#include <algorithm>

namespace aftercrop::load {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using diagnostic::Diagnostics;

// Crops that need a winter in the ground are harvested so many weeks into the next season, and
// are known by the days they take: our choice.
constexpr int kOverwinterWeeks = 40;
constexpr double kOverwinterDays = 200.0;
constexpr int kFreshWeeks = 4;

const Ask kAmount{"the amount of a want",
                  {Dimension::Mass, Dimension::Plants, Dimension::Stems, Dimension::Area,
                   Dimension::Beds, Dimension::Sections},
                  "kg, lb, plants, stems, beds, m2, ft2",
                  {1.0e-6, 1.0e7}};
const Ask kEvery{"the interval of a want", {Dimension::Weeks}, "week, weeks", {1.0, 52.0}};

std::optional<std::pair<Day, Day>> read_window(const Node& node, Diagnostics& out) {
  const std::vector<const Node*> items = list_of(node);
  if (items.size() != 2) {
    out.error("wrong-shape", "the harvest of a want is two dates", node.source,
              "write `harvest: [2027-07-15, 2027-09-30]`, or `[07-15, 09-30]` for every year");
    return {};
  }
  const auto first = read_day(*items[0], "the first day of a harvest", out);
  const auto last = read_day(*items[1], "the last day of a harvest", out);
  if (!first || !last) return {};
  if (first->index() != last->index()) {
    out.error("wrong-shape", "one date of the harvest has a year, the other has none", node.source,
              "write both with a year, or both without");
    return {};
  }
  const auto* from = std::get_if<Date>(&*first);
  if (from != nullptr && std::get<Date>(*last) < *from) {
    out.error("date-order", "the harvest ends before it begins", node.source,
              "put the earlier date first");
    return {};
  }
  return std::make_pair(*first, *last);
}

std::optional<int> read_every(const Node& node, Diagnostics& out) {
  if (node.is_scalar() && (node.text == "week" || node.text == "weekly")) return 1;
  const auto measure = read_measure(node, kEvery, out);
  if (!measure) return {};
  return static_cast<int>(measure->value);
}

/// The inclusive days as whole weeks.
WeekSpan weeks_touched(Date first, Date last) {
  return {calendar::week_of(first), calendar::week_of(last) + Weeks(1)};
}

/// A window from month-day to month-day that begins in a season; it may cross New Year.
WeekSpan window_in(WeekSpan season, const std::pair<Day, Day>& days) {
  const Date first =
      next(std::get<catalogue::MonthDay>(days.first), calendar::monday(season.first));
  const Date last = next(std::get<catalogue::MonthDay>(days.second), first);
  return weeks_touched(first, last);
}

/// Where the harvest of plants that start in a season counts.
WeekSpan whole_season(WeekSpan season, const catalogue::Crop& crop) {
  const bool needs_winter = crop.overwinters && crop.days_min >= kOverwinterDays;
  const Weeks later(needs_winter ? kOverwinterWeeks : 0);
  return {season.first + later, season.past + later};
}

}  // namespace

std::optional<WantRow> read_want_row(const Node& node, Lookup& lookup, Diagnostics& out) {
  WantRow row;
  row.source = node.source;
  if (node.is_scalar()) {
    const auto crop = lookup.crop(node, out);
    if (!crop) return {};
    row.crop = *crop;
    return row;
  }
  const Fields fields(node, "a want", {"crop", "amount", "harvest", "every", "years", "weight"},
                      out);
  const Node* name = fields.need("crop", out);
  if (!fields.is_table()) return {};
  if (name != nullptr) row.source = name->source;
  const auto crop = name != nullptr ? lookup.crop(*name, out) : std::nullopt;
  const int errors = out.count(diagnostic::Severity::Error);
  if (const Node* amount = fields.get("amount")) row.amount = read_measure(*amount, kAmount, out);
  if (const Node* harvest = fields.get("harvest")) row.harvest = read_window(*harvest, out);
  if (const Node* every = fields.get("every")) row.every_weeks = read_every(*every, out);
  if (const Node* years = fields.get("years")) {
    row.each_year = read_choice<bool>(*years, "a way to repeat a want",
                                      {{"each", true}, {"first", false}}, out);
  }
  if (const Node* weight = fields.get("weight")) {
    row.weight = read_number(*weight, "the weight of a want", {0.001, 1000}, out).value_or(1.0);
  }
  if (!crop || out.count(diagnostic::Severity::Error) > errors) return {};
  row.crop = *crop;
  return row;
}

std::vector<WeekSpan> windows_of(const WantRow& row, const WantContext& context, Diagnostics& out) {
  const bool exact = row.harvest && std::holds_alternative<Date>(row.harvest->first);
  if (exact && row.each_year.value_or(false)) {
    out.error("wrong-shape", "a harvest with years cannot come each year", row.source,
              "write the days without a year: `harvest: [05-20, 10-10]`");
    return {};
  }
  if (exact) {
    const WeekSpan window =
        weeks_touched(std::get<Date>(row.harvest->first), std::get<Date>(row.harvest->second));
    if (window.past <= context.seasons->span.first) {
      out.error("date-order", "the harvest lies before the seasons begin", row.source,
                fmt::format("the seasons begin on {}",
                            calendar::monday(context.seasons->span.first).text()));
      return {};
    }
    return {window};
  }
  const catalogue::Crop& crop = context.lookup->catalogue().crop(row.crop);
  std::vector<WeekSpan> windows;
  for (const WeekSpan& season : context.seasons->years) {
    windows.push_back(row.harvest ? window_in(season, *row.harvest) : whole_season(season, crop));
    if (!row.each_year.value_or(true)) break;
  }
  return windows;
}

WeekSpan fresh_weeks(WeekSpan season, const garden::Site& site) {
  const auto& normals = site.normals;
  if (!normals.last_frost || !normals.first_frost) return season;
  const Date last = next(*normals.last_frost, calendar::monday(season.first));
  const Week first = calendar::week_of(last) + Weeks(kFreshWeeks);
  const Week past = calendar::week_of(next(*normals.first_frost, last));
  return {first, std::max(past, first + Weeks(1))};
}

}  // namespace aftercrop::load
