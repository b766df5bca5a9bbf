#include "aftercrop/calendar/week.h"

#include <array>
#include <cstdio>

namespace aftercrop::calendar {
namespace {

constexpr int kFirstMonday = 4;  // 1970-01-05 in days since 1970-01-01

int floor_div(int a, int b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

/// The week with number 1 of an ISO year: the one that holds 4 January.
Week first_week(int iso_year) { return week_of(*Date::from_ymd(iso_year, 1, 4)); }

}  // namespace

Week week_of(Date day) { return Week(floor_div(day.serial() - kFirstMonday, 7)); }

Date monday(Week week) { return Date::from_serial(week.serial() * 7 + kFirstMonday); }

IsoWeek iso(Week week) {
  const int year = monday(week).plus_days(3).year();
  return {year, (week - first_week(year)).count() + 1};
}

int weeks_in_iso_year(int year) { return iso(week_of(*Date::from_ymd(year, 12, 28))).number; }

std::string text(Week week) {
  const IsoWeek parts = iso(week);
  std::array<char, 32> buffer{};
  const int length =
      std::snprintf(buffer.data(), buffer.size(), "%04d-W%02d", parts.year, parts.number);
  return {buffer.data(), static_cast<std::size_t>(length)};
}

std::optional<Week> parse_week(std::string_view text) {
  if (text.size() != 8 || text[4] != '-' || text[5] != 'W') return {};
  int digits[6];
  const int places[6] = {0, 1, 2, 3, 6, 7};
  for (int i = 0; i < 6; ++i) {
    const char c = text[static_cast<std::size_t>(places[i])];
    if (c < '0' || c > '9') return {};
    digits[i] = c - '0';
  }
  const int year = digits[0] * 1000 + digits[1] * 100 + digits[2] * 10 + digits[3];
  const int number = digits[4] * 10 + digits[5];
  if (year < 1901 || year > 2199 || number < 1 || number > weeks_in_iso_year(year)) return {};
  return first_week(year) + Weeks(number - 1);
}

}  // namespace aftercrop::calendar
