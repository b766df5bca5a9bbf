#include <fmt/format.h>

#include "aftercrop/calendar/week.h"

// Prints every day of 1950 to 2155 with its ISO week and weekday, for week_check.py.
int main() {
  using aftercrop::calendar::Date;
  const Date past = *Date::from_ymd(2156, 1, 1);
  for (Date day = *Date::from_ymd(1950, 1, 1); day < past; day = day.plus_days(1)) {
    fmt::print("{},{},{}\n", day.text(),
               aftercrop::calendar::text(aftercrop::calendar::week_of(day)), day.weekday());
  }
}
