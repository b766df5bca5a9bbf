#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

#include "aftercrop/calendar/date.h"

namespace aftercrop::calendar {

/// A length of time in whole weeks.
class Weeks {
 public:
  constexpr Weeks() = default;
  constexpr explicit Weeks(int count) : count_(count) {}
  [[nodiscard]] constexpr int count() const { return count_; }
  friend constexpr Weeks operator+(Weeks a, Weeks b) { return Weeks(a.count_ + b.count_); }
  friend constexpr Weeks operator-(Weeks a, Weeks b) { return Weeks(a.count_ - b.count_); }
  friend constexpr auto operator<=>(Weeks, Weeks) = default;

 private:
  int count_ = 0;
};

/// An ISO 8601 week: a point in time, not a length. Its serial number counts weeks since the
/// Monday 1970-01-05, so that 2027-W01 is week 2974. A week plus a week does not compile.
class Week {
 public:
  constexpr Week() = default;
  constexpr explicit Week(int serial) : serial_(serial) {}
  [[nodiscard]] constexpr int serial() const { return serial_; }
  friend constexpr Week operator+(Week w, Weeks n) { return Week(w.serial_ + n.count()); }
  friend constexpr Week operator-(Week w, Weeks n) { return Week(w.serial_ - n.count()); }
  friend constexpr Weeks operator-(Week a, Week b) { return Weeks(a.serial_ - b.serial_); }
  constexpr Week& operator++() {
    ++serial_;
    return *this;
  }
  friend constexpr auto operator<=>(Week, Week) = default;

 private:
  int serial_ = 0;
};

/// Half-open: `first` is in it, `past` is not.
struct WeekSpan {
  Week first;
  Week past;
  [[nodiscard]] constexpr bool contains(Week w) const { return first <= w && w < past; }
  [[nodiscard]] constexpr Weeks length() const { return past - first; }
  friend constexpr bool operator==(const WeekSpan&, const WeekSpan&) = default;
};

struct IsoWeek {
  int year;    ///< the year of the week's Thursday
  int number;  ///< 1 to 53
  friend constexpr bool operator==(const IsoWeek&, const IsoWeek&) = default;
};

/// The week that holds a day. Loses the weekday, hence a named function.
[[nodiscard]] Week week_of(Date day);
[[nodiscard]] Date monday(Week week);
[[nodiscard]] IsoWeek iso(Week week);
/// 52 or 53.
[[nodiscard]] int weeks_in_iso_year(int year);
/// "2027-W20".
[[nodiscard]] std::string text(Week week);
/// Reads exactly YYYY-Www; empty for anything else, 2027-W53 included.
[[nodiscard]] std::optional<Week> parse_week(std::string_view text);

}  // namespace aftercrop::calendar
