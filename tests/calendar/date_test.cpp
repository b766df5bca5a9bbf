#include "aftercrop/calendar/date.h"

#include <doctest/doctest.h>

#include <chrono>

using aftercrop::calendar::Date;

TEST_CASE("date: only real days can be built") {
  CHECK(Date::from_ymd(2027, 2, 28));
  CHECK_FALSE(Date::from_ymd(2027, 2, 29));
  CHECK(Date::from_ymd(2028, 2, 29));
  CHECK_FALSE(Date::from_ymd(2027, 13, 1));
  CHECK_FALSE(Date::from_ymd(2027, 0, 1));
  CHECK_FALSE(Date::from_ymd(1899, 12, 31));
}

TEST_CASE("date: text is read strictly and comes back the same") {
  for (const char* text : {"1900-01-01", "1970-01-01", "2026-12-31", "2028-02-29", "2200-12-31"}) {
    CAPTURE(text);
    const auto date = Date::parse(text);
    REQUIRE(date);
    CHECK(date->text() == text);
  }
  for (const char* text : {"2027-2-03", "20270203", "2027-Feb-03", "2027/02/03", "2027-02-3.",
                           "2027-02-30", " 2027-02-03", "2027-02-03 ", ""}) {
    CAPTURE(text);
    CHECK_FALSE(Date::parse(text));
  }
}

TEST_CASE("date: serial numbers and weekdays agree with the standard library's calendar") {
  using namespace std::chrono;
  for (sys_days day = sys_days{year{1900} / 1 / 1}; day <= sys_days{year{2199} / 12 / 31};
       day += days{1}) {
    const year_month_day ymd{day};
    const auto ours =
        Date::from_ymd(int(ymd.year()), int(unsigned(ymd.month())), int(unsigned(ymd.day())));
    REQUIRE(ours);
    REQUIRE(ours->serial() == day.time_since_epoch().count());
    REQUIRE(ours->weekday() == int(weekday{day}.iso_encoding()));
  }
}
