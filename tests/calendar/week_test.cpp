#include "aftercrop/calendar/week.h"

#include <doctest/doctest.h>

#include <chrono>
#include <string>

using namespace aftercrop::calendar;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
static_assert(!Addable<Week, Week>);
static_assert(Addable<Week, Weeks>);

// Source: the ISO 8601 week table of the climate reference (C27), computed with a standard library.
TEST_CASE("week: published ISO weeks") {
  struct Row {
    const char* date;
    const char* week;
    int weekday;
  };
  const Row rows[] = {
      {"1970-01-05", "1970-W02", 1}, {"2000-01-01", "1999-W52", 6}, {"2020-12-31", "2020-W53", 4},
      {"2021-01-03", "2020-W53", 7}, {"2024-12-30", "2025-W01", 1}, {"2026-01-01", "2026-W01", 4},
      {"2026-12-28", "2026-W53", 1}, {"2027-01-01", "2026-W53", 5}, {"2027-01-04", "2027-W01", 1},
      {"2027-03-01", "2027-W09", 1}, {"2027-05-17", "2027-W20", 1}, {"2027-12-31", "2027-W52", 5},
      {"2028-01-01", "2027-W52", 6}, {"2028-02-29", "2028-W09", 2}, {"2032-12-31", "2032-W53", 5},
      {"2033-01-02", "2032-W53", 7}};
  for (const Row& row : rows) {
    CAPTURE(row.date);
    const Date date = *Date::parse(row.date);
    CHECK(text(week_of(date)) == row.week);
    CHECK(date.weekday() == row.weekday);
  }
  CHECK(week_of(*Date::parse("1970-01-05")).serial() == 0);
  CHECK(week_of(*Date::parse("2026-12-28")).serial() == 2973);
  CHECK(week_of(*Date::parse("2027-05-17")).serial() == 2993);
}

TEST_CASE("week: agrees with the Thursday rule of the standard library over 200 years") {
  using namespace std::chrono;
  for (sys_days day = sys_days{year{1950} / 1 / 1}; day <= sys_days{year{2149} / 12 / 31};
       day += days{1}) {
    const sys_days thursday = day + days{4 - int(weekday{day}.iso_encoding())};
    const year iso_year = year_month_day{thursday}.year();
    const auto number = (thursday - sys_days{iso_year / January / 1}).count() / 7 + 1;
    const IsoWeek ours =
        iso(week_of(Date::from_serial(static_cast<int>(day.time_since_epoch().count()))));
    REQUIRE(ours.year == int(iso_year));
    REQUIRE(ours.number == number);
  }
}

TEST_CASE("week: text round trip, week 53 only where it exists") {
  for (int serial = 2000; serial < 4000; ++serial) {
    const Week week{serial};
    const auto back = parse_week(text(week));
    REQUIRE(back);
    REQUIRE(*back == week);
    REQUIRE(week_of(monday(week)) == week);
  }
  CHECK(parse_week("2026-W53"));
  CHECK_FALSE(parse_week("2027-W53"));
  CHECK_FALSE(parse_week("2027-W00"));
  CHECK_FALSE(parse_week("2027-20"));
}
