#include "load/seasons.h"

#include <fmt/format.h>

#include <algorithm>

#include "load/fields.h"
#include "load/moments.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::WeekSpan;
using diagnostic::Diagnostics;

constexpr int kMostYears = 10;
constexpr int kFirstSeason = 1990;
constexpr int kLastSeason = 2120;

Week week_years_later(Week first, int years) {
  return calendar::week_of(years_later(calendar::monday(first).plus_days(3), years));
}

Seasons from_season(int season, int years, const climate::SiteClimate& site) {
  Seasons found;
  for (int i = 0; i < years; ++i) {
    found.years.push_back({site.season_start(season + i), site.season_start(season + i + 1)});
  }
  found.span = {found.years.front().first, found.years.back().past};
  return found;
}

/// 2027 of "2027" and of "2027/28"; the second only where the season crosses New Year.
std::optional<int> season_number(const Node& node, bool crosses, Diagnostics& out) {
  const std::string& text = node.text;
  const std::size_t stroke = text.find('/');
  const auto year = plain_whole(std::string_view(text).substr(0, stroke));
  const bool four = std::min(stroke, text.size()) == 4;
  if (!year || !four || *year < kFirstSeason || *year > kLastSeason) {
    out.error("not-a-season", fmt::format("\"{}\" is not a season", text), node.source,
              "write a year (2027), or `{from: 2027-03-01, years: 3}`");
    return {};
  }
  if (stroke == std::string::npos) return year;
  const std::string next = fmt::format("{:02}", (*year + 1) % 100);
  const std::string rest = text.substr(stroke + 1);
  if (crosses && (rest == next || rest == fmt::format("{}", *year + 1))) return year;
  out.error("not-a-season", fmt::format("\"{}\" is not one season here", text), node.source,
            crosses
                ? fmt::format("the season of {0} is {0}/{1}", *year, next)
                : fmt::format("the season of {0} is {0}; for two write `{{from: {0}, years: 2}}`",
                              *year));
  return {};
}

bool crosses_new_year(const climate::SiteClimate& site) {
  const Date start = calendar::monday(site.season_start(2027));
  return start.year() == 2027 && start.month() > 2 && start.month() < 11;
}

bool check_length(int years, const Node& node, Diagnostics& out) {
  if (years >= 1 && years <= kMostYears) return true;
  out.error("horizon-out-of-range", fmt::format("the seasons are {} years", years), node.source,
            fmt::format("plan 1 to {} years at a time", kMostYears))
      .measure = diagnostic::Measure{static_cast<double>(years), kMostYears, "years"};
  return false;
}

std::optional<Seasons> from_dates(Date from, int years, std::optional<Date> to, const Node& node,
                                  Diagnostics& out) {
  const Week first = calendar::week_of(from);
  WeekSpan span{first, to ? calendar::week_of(*to) : week_years_later(first, years)};
  if (to && *to <= from) {
    out.error("date-order", fmt::format("the seasons end on {}, before they begin", to->text()),
              node.source, "`to:` is the day after the last one");
    return {};
  }
  span.past = std::max(span.past, span.first + calendar::Weeks(1));
  const int whole_years = (span.length().count() + 51) / 53;
  if (to && !check_length(std::max(1, whole_years), node, out)) return {};
  return Seasons{span, years_of(span)};
}

std::optional<Seasons> read_table(const Node& node, const climate::SiteClimate& site,
                                  Diagnostics& out) {
  const Fields fields(node, "seasons", {"from", "to", "years"}, out);
  const Node* from = fields.need("from", out);
  if (from == nullptr) return {};
  int years = 1;
  if (const Node* count = fields.get("years")) {
    const auto typed = read_whole(*count, "years", {-10000, 10000}, out);
    if (!typed || !check_length(*typed, *count, out)) return {};
    years = *typed;
  }
  const bool season = from->is_scalar() && from->text.size() != 10;
  if (season) {
    const auto number = season_number(*from, crosses_new_year(site), out);
    if (!number) return {};
    return from_season(*number, years, site);
  }
  const auto first = read_date(*from, "the first day of the seasons", out);
  std::optional<Date> last;
  if (const Node* to = fields.get("to")) {
    last = read_date(*to, "the end of the seasons", out);
    if (!last) return {};
  }
  if (!first) return {};
  return from_dates(*first, years, last, node, out);
}

}  // namespace

Seasons season_of(int season, const climate::SiteClimate& site) {
  return from_season(season, 1, site);
}

std::vector<WeekSpan> years_of(WeekSpan span) {
  std::vector<WeekSpan> years;
  Week start = span.first;
  for (int i = 1; start < span.past; ++i) {
    const Week end = week_years_later(span.first, i);
    years.push_back({start, std::min(end, span.past)});
    start = end;
  }
  return years;
}

std::optional<Seasons> read_seasons(const Node& node, const climate::SiteClimate& site,
                                    Diagnostics& out) {
  if (node.is_map()) return read_table(node, site, out);
  if (!read_text(node, "seasons", out)) return {};
  const auto number = season_number(node, crosses_new_year(site), out);
  if (!number) return {};
  return from_season(*number, 1, site);
}

}  // namespace aftercrop::load
