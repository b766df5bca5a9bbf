#include "aftercrop/calendar/date.h"

#include <array>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <cstdio>

namespace aftercrop::calendar {
namespace {

constexpr int kFirstYear = 1900;
constexpr int kLastYear = 2200;

const boost::gregorian::date kEpoch(1970, 1, 1);

boost::gregorian::date to_boost(Date day) { return kEpoch + boost::gregorian::days(day.serial()); }

bool all_digits(std::string_view text) {
  for (const char c : text) {
    if (c < '0' || c > '9') return false;
  }
  return true;
}

int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

}  // namespace

int days_in_month(int year, int month) {
  return boost::gregorian::gregorian_calendar::end_of_month_day(static_cast<unsigned short>(year),
                                                                static_cast<unsigned short>(month));
}

std::optional<Date> Date::from_ymd(int year, int month, int day) {
  if (year < kFirstYear || year > kLastYear || month < 1 || month > 12 || day < 1) return {};
  if (day > days_in_month(year, month)) return {};
  const boost::gregorian::date date(static_cast<unsigned short>(year),
                                    static_cast<unsigned short>(month),
                                    static_cast<unsigned short>(day));
  return Date(static_cast<int>((date - kEpoch).days()));
}

std::optional<Date> Date::parse(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
  const auto year = text.substr(0, 4);
  const auto month = text.substr(5, 2);
  const auto day = text.substr(8, 2);
  if (!all_digits(year) || !all_digits(month) || !all_digits(day)) return {};
  return from_ymd(number(year), number(month), number(day));
}

int Date::year() const { return to_boost(*this).year(); }
int Date::month() const { return to_boost(*this).month(); }
int Date::day() const { return to_boost(*this).day(); }
int Date::day_of_year() const { return to_boost(*this).day_of_year(); }

int Date::weekday() const {
  const int from_monday = (days_ + 3) % 7;  // 1970-01-01 was a Thursday
  return (from_monday < 0 ? from_monday + 7 : from_monday) + 1;
}

std::string Date::text() const {
  const auto ymd = to_boost(*this).year_month_day();
  std::array<char, 32> buffer{};
  const int length =
      std::snprintf(buffer.data(), buffer.size(), "%04d-%02d-%02d", static_cast<int>(ymd.year),
                    static_cast<int>(ymd.month), static_cast<int>(ymd.day));
  return {buffer.data(), static_cast<std::size_t>(length)};
}

std::string Date::basic_text() const {
  std::string dashed = text();
  dashed.erase(7, 1);
  dashed.erase(4, 1);
  return dashed;
}

}  // namespace aftercrop::calendar
