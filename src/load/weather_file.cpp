#include "load/weather_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "aftercrop/calendar/date.h"
#include "aftercrop/load/names.h"
#include "load/fields.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using diagnostic::Diagnostics;
using diagnostic::Source;
using garden::WeatherDay;

constexpr int kMostTold = 20;  // mistakes of one file that are told one by one
constexpr double kHottestC = 60.0;
constexpr double kColdestC = -75.0;
constexpr double kMostRainMm = 2000.0;
constexpr const char* kHead = "write `date,tmax_c,tmin_c,rain_mm` (or tmax_f, tmin_f, rain_in)";

std::vector<std::string_view> cells(std::string_view line) {
  std::vector<std::string_view> found;
  while (true) {
    const std::size_t comma = line.find(',');
    std::string_view cell = line.substr(0, comma);
    const auto trims = [](char c) { return c == ' ' || c == '\r' || c == '\t' || c == '"'; };
    while (!cell.empty() && trims(cell.front())) cell.remove_prefix(1);
    while (!cell.empty() && trims(cell.back())) cell.remove_suffix(1);
    found.push_back(cell);
    if (comma == std::string_view::npos) return found;
    line.remove_prefix(comma + 1);
  }
}

/// One column of measurements: where it is and how it becomes metric. -1 = not there.
struct Column {
  int at = -1;
  double factor = 1.0;
  double offset = 0.0;
};

struct Columns {
  int date = -1;
  Column tmax;
  Column tmin;
  Column rain;
};

struct KnownName {
  std::string_view name;
  Column Columns::*column;
  double factor;
  double offset;
};
constexpr std::array<KnownName, 6> kNames = {{{"tmax_c", &Columns::tmax, 1.0, 0.0},
                                              {"tmax_f", &Columns::tmax, 5.0 / 9.0, -160.0 / 9.0},
                                              {"tmin_c", &Columns::tmin, 1.0, 0.0},
                                              {"tmin_f", &Columns::tmin, 5.0 / 9.0, -160.0 / 9.0},
                                              {"rain_mm", &Columns::rain, 1.0, 0.0},
                                              {"rain_in", &Columns::rain, 25.4, 0.0}}};

/// A day with the line that it stands on.
struct Line {
  WeatherDay day;
  int number = 0;
};

class WeatherReader {
 public:
  WeatherReader(const std::shared_ptr<const diagnostic::SourceFile>& file, Diagnostics& out)
      : file_(file), out_(out) {}

  std::optional<std::vector<WeatherDay>> read() {
    std::string_view rest = file_->text;
    for (int number = 1; !rest.empty(); ++number) {
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      const std::string_view line = rest.substr(0, end);
      rest.remove_prefix(std::min(rest.size(), end + 1));
      if (number == 1) {
        if (!read_head(line)) return {};
      } else if (!line.empty() && line != "\r") {
        read_day(cells(line), number);
      }
    }
    report_swapped();
    if (told_ > kMostTold) {
      out_.error("weather-file", fmt::format("{} more lines are wrong", told_ - kMostTold),
                 {file_, 1, 1, 1}, "put the first ones right, and read it again");
    }
    if (told_ > 0) return {};
    return in_order();
  }

 private:
  [[nodiscard]] Source at(int number) const { return {file_, number, 1, 1}; }

  void wrong(int number, std::string message, std::string help) {
    if (++told_ > kMostTold) return;
    out_.error("weather-file", std::move(message), at(number), std::move(help));
  }

  bool read_head(std::string_view line) {
    if (line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3);
    const std::vector<std::string_view> names = cells(line);
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (names[i] == "date") columns_.date = static_cast<int>(i);
      for (const KnownName& known : kNames) {
        if (names[i] != known.name) continue;
        columns_.*known.column = {static_cast<int>(i), known.factor, known.offset};
      }
    }
    std::string missing;
    const auto need = [&](bool there, const char* name) {
      if (!there) missing += (missing.empty() ? "" : ", ") + std::string(name);
    };
    need(columns_.date >= 0, "date");
    need(columns_.tmax.at >= 0, "tmax_c");
    need(columns_.tmin.at >= 0, "tmin_c");
    if (missing.empty()) return true;
    out_.error("weather-file", fmt::format("the first line does not name {}", missing), at(1),
               kHead);
    return false;
  }

  /// A cell as a metric number; empty where there is none. `broken` where there is something else.
  std::optional<double> value(const std::vector<std::string_view>& row, const Column& column,
                              bool& broken) const {
    const auto index = static_cast<std::size_t>(column.at);
    if (column.at < 0 || index >= row.size() || row[index].empty()) return {};
    const auto number = plain_number(row[index]);
    broken = broken || !number;
    if (!number) return {};
    return *number * column.factor + column.offset;
  }

  void read_day(const std::vector<std::string_view>& row, int number) {
    const auto index = static_cast<std::size_t>(columns_.date);
    const std::string_view text = index < row.size() ? row[index] : std::string_view();
    const auto date = Date::parse(text);
    if (!date) {
      return wrong(number, fmt::format("\"{}\" is not a date", text),
                   "write year-month-day, as in 2026-05-20");
    }
    const auto [twice, fresh] = lines_.emplace(date->serial(), number);
    if (!fresh) {
      return wrong(number, fmt::format("{} stands on line {} already", text, twice->second),
                   "remove one of the two lines");
    }
    bool broken = false;
    const auto high = value(row, columns_.tmax, broken);
    const auto low = value(row, columns_.tmin, broken);
    const auto rain = value(row, columns_.rain, broken);
    if (broken) {
      return wrong(number, fmt::format("{} has a figure that is not a number", text),
                   "write plain numbers, and nothing where none was measured");
    }
    if (rain && (*rain < 0.0 || *rain > kMostRainMm)) {
      return wrong(
          number,
          fmt::format("{} has {} of rain", text, row[static_cast<std::size_t>(columns_.rain.at)]),
          "check the unit in the first line: rain_mm or rain_in");
    }
    if (!high || !low) return;  // a gap, told as one
    add_day({*date, *high, *low, rain}, number);
  }

  void add_day(const WeatherDay& day, int number) {
    for (const double degrees : {day.tmax_c, day.tmin_c}) {
      if (degrees >= kColdestC && degrees <= kHottestC) continue;
      return wrong(number, fmt::format("{} has {:.0f} C", day.date.text(), degrees),
                   "check the unit in the first line: tmax_c and tmin_c, or tmax_f and tmin_f");
    }
    if (day.tmax_c < day.tmin_c) swapped_.push_back({day, number});
    days_.push_back({day, number});
  }

  void report_swapped() {
    if (swapped_.empty()) return;
    if (swapped_.size() * 2 > days_.size()) {
      told_ += 1;
      out_.error("weather-file",
                 fmt::format("the maximum is below the minimum on {} of {} days, first on line {}",
                             swapped_.size(), days_.size(), swapped_.front().number),
                 at(1), "the two columns are swapped: change their names in the first line");
      return;
    }
    for (const Line& line : swapped_) {
      wrong(line.number, fmt::format("{}: the maximum is below the minimum", line.day.date.text()),
            "the two figures are swapped, or one is wrong");
    }
  }

  std::optional<std::vector<WeatherDay>> in_order() {
    std::sort(days_.begin(), days_.end(),
              [](const Line& a, const Line& b) { return a.day.date < b.day.date; });
    if (days_.empty()) {
      out_.error("weather-file", "there is no day of weather", at(1), kHead);
      return {};
    }
    std::vector<WeatherDay> days;
    int gaps = 0;
    for (const Line& line : days_) {
      if (!days.empty()) {
        const int missing = calendar::days_between(days.back().date, line.day.date) - 1;
        if (missing > 0 && ++gaps <= kMostTold) report_gap(days.back().date, missing, line.number);
      }
      days.push_back(line.day);
    }
    if (gaps > kMostTold) {
      out_.warning("weather-gap", fmt::format("{} more gaps", gaps - kMostTold), at(1),
                   "normals stand in for the days that are missing");
    }
    return days;
  }

  void report_gap(Date before, int missing, int number) {
    const std::string first = before.plus_days(1).text();
    out_.warning("weather-gap",
                 missing == 1 ? fmt::format("no weather on {}", first)
                              : fmt::format("no weather from {} to {} ({} days)", first,
                                            before.plus_days(missing).text(), missing),
                 at(number), "normals stand in for the days that are missing");
  }

  const std::shared_ptr<const diagnostic::SourceFile>& file_;
  Diagnostics& out_;
  Columns columns_;
  std::map<int, int> lines_;  ///< line of each day
  std::vector<Line> days_;
  std::vector<Line> swapped_;
  int told_ = 0;
};

}  // namespace

std::optional<std::vector<WeatherDay>> read_weather_days(
    const std::shared_ptr<const diagnostic::SourceFile>& file, Diagnostics& out) {
  return WeatherReader(file, out).read();
}

}  // namespace aftercrop::load
