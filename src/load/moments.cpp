#include "load/moments.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace aftercrop::load {
namespace {

using calendar::Date;
using catalogue::MonthDay;
using diagnostic::Diagnostics;

constexpr int kLeapYear = 2028;
constexpr int kFirstYear = 1950;
constexpr int kLastYear = 2150;

constexpr std::array<std::string_view, 12> kMonths = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

/// "05-08" as numbers; the ranges are not checked.
std::optional<MonthDay> month_and_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return {};
  const auto month = plain_whole(text.substr(0, 2));
  const auto day = plain_whole(text.substr(3, 2));
  if (!month || !day) return {};
  return MonthDay{*month, *day};
}

/// Year, month and day of "2027-02-30"; the ranges are not checked.
struct Parts {
  int year;
  MonthDay day;
};
std::optional<Parts> parts(std::string_view text) {
  if (text.size() != 10 || text[4] != '-') return {};
  const auto year = plain_whole(text.substr(0, 4));
  const auto rest = month_and_day(text.substr(5));
  if (!year || !rest) return {};
  return Parts{*year, *rest};
}

std::string why_impossible(MonthDay day, int year) {
  if (day.month < 1 || day.month > 12) return "months run from 01 to 12";
  return fmt::format("{} {} has {} days", kMonths[static_cast<std::size_t>(day.month - 1)], year,
                     calendar::days_in_month(year, day.month));
}

std::optional<Date> checked_date(const Parts& found, const Node& node, Diagnostics& out) {
  if (found.year < kFirstYear || found.year > kLastYear) {
    out.error("impossible-date", fmt::format("the year of {} is too far away", node.text),
              node.source, fmt::format("years run from {} to {}", kFirstYear, kLastYear));
    return {};
  }
  const auto date = Date::from_ymd(found.year, found.day.month, found.day.day);
  if (!date) {
    out.error("impossible-date", fmt::format("{} is not a day of the calendar", node.text),
              node.source, why_impossible(found.day, found.year));
  }
  return date;
}

std::optional<MonthDay> checked_day(MonthDay found, const Node& node, Diagnostics& out) {
  if (Date::from_ymd(kLeapYear, found.month, found.day)) return found;
  out.error("impossible-date", fmt::format("{} is not a day of any year", node.text), node.source,
            "a day of every year is written month-day: 05-08 is 8 May");
  return {};
}

void report_form(const Node& node, std::string_view what, std::string_view help, Diagnostics& out) {
  out.error("not-a-date", fmt::format("{} is \"{}\", which is not a date", what, node.text),
            node.source, std::string(help));
}

}  // namespace

std::optional<Date> read_date(const Node& node, std::string_view what, Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  if (const auto found = parts(*text)) return checked_date(*found, node, out);
  if (month_and_day(*text)) {
    report_form(node, what, fmt::format("the year is missing: write 2027-{}", *text), out);
  } else {
    report_form(node, what, "write year-month-day: 2027-05-20", out);
  }
  return {};
}

std::optional<MonthDay> read_month_day(const Node& node, std::string_view what, Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  if (const auto found = month_and_day(*text)) return checked_day(*found, node, out);
  report_form(node, what, "write month-day: 05-08 is 8 May", out);
  return {};
}

std::optional<Day> read_day(const Node& node, std::string_view what, Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  if (const auto found = parts(*text)) {
    if (const auto date = checked_date(*found, node, out)) return Day(*date);
    return {};
  }
  if (const auto found = month_and_day(*text)) {
    if (const auto day = checked_day(*found, node, out)) return Day(*day);
    return {};
  }
  report_form(node, what, "write year-month-day (2027-05-20), or month-day for every year (05-20)",
              out);
  return {};
}

Date in_year(MonthDay day, int year) {
  const int most = calendar::days_in_month(year, day.month);
  return *Date::from_ymd(year, day.month, std::min(day.day, most));
}

Date next(MonthDay day, Date start) {
  const Date same_year = in_year(day, start.year());
  return same_year >= start ? same_year : in_year(day, start.year() + 1);
}

Date years_later(Date day, int years) {
  return in_year({day.month(), day.day()}, day.year() + years);
}

}  // namespace aftercrop::load
