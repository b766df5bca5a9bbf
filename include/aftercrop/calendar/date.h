#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace aftercrop::calendar {

/// A day of the Gregorian calendar. Invalid dates cannot be built: 30 February is refused, never
/// moved to March. Years 1900 to 2200.
class Date {
 public:
  /// 1970-01-01.
  constexpr Date() = default;

  /// Empty unless the three numbers name a day of the calendar.
  static std::optional<Date> from_ymd(int year, int month, int day);
  /// Reads exactly YYYY-MM-DD; empty for anything else.
  static std::optional<Date> parse(std::string_view text);
  /// The day `days` after 1970-01-01.
  static constexpr Date from_serial(int days) { return Date(days); }

  [[nodiscard]] constexpr int serial() const { return days_; }
  [[nodiscard]] int year() const;
  /// 1 to 12.
  [[nodiscard]] int month() const;
  /// 1 to 31.
  [[nodiscard]] int day() const;
  /// 1 = 1 January.
  [[nodiscard]] int day_of_year() const;
  /// ISO 8601: 1 = Monday, 7 = Sunday.
  [[nodiscard]] int weekday() const;
  /// YYYY-MM-DD.
  [[nodiscard]] std::string text() const;
  /// YYYYMMDD, as iCalendar writes it.
  [[nodiscard]] std::string basic_text() const;

  [[nodiscard]] constexpr Date plus_days(int days) const { return Date(days_ + days); }
  friend constexpr auto operator<=>(Date, Date) = default;

 private:
  constexpr explicit Date(int days) : days_(days) {}
  int days_ = 0;
};

/// Days from `a` to `b`; negative when b lies before a.
[[nodiscard]] constexpr int days_between(Date a, Date b) { return b.serial() - a.serial(); }

/// The days of a month, 28 to 31.
[[nodiscard]] int days_in_month(int year, int month);

/// Half-open span of days: `first` is in it, `past` is not.
struct DateSpan {
  Date first;
  Date past;
  friend constexpr bool operator==(const DateSpan&, const DateSpan&) = default;
};

}  // namespace aftercrop::calendar
