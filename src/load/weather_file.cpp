#include "load/weather_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "load/fields.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using diagnostic::Diagnostics;
using diagnostic::Source;

constexpr int kLeastDays = 25;
constexpr int kFewYears = 5;

std::vector<std::string_view> cells(std::string_view line) {
  std::vector<std::string_view> found;
  while (true) {
    const std::size_t comma = line.find(',');
    std::string_view cell = line.substr(0, comma);
    while (!cell.empty() && cell.front() == ' ') cell.remove_prefix(1);
    while (!cell.empty() && (cell.back() == ' ' || cell.back() == '\r')) cell.remove_suffix(1);
    found.push_back(cell);
    if (comma == std::string_view::npos) return found;
    line.remove_prefix(comma + 1);
  }
}

/// Which column holds what; -1 = not there.
struct Columns {
  int date = -1;
  int tmax = -1;
  int tmin = -1;
  int rain = -1;
  bool fahrenheit = false;
  bool inches = false;
};

Columns columns_of(std::string_view head) {
  Columns columns;
  const std::vector<std::string_view> names = cells(head);
  for (std::size_t i = 0; i < names.size(); ++i) {
    const int at = static_cast<int>(i);
    if (names[i] == "date") columns.date = at;
    if (names[i] == "tmax_c" || names[i] == "tmax_f") columns.tmax = at;
    if (names[i] == "tmin_c" || names[i] == "tmin_f") columns.tmin = at;
    if (names[i] == "rain_mm" || names[i] == "rain_in") columns.rain = at;
    if (names[i] == "tmax_f") columns.fahrenheit = true;
    if (names[i] == "rain_in") columns.inches = true;
  }
  return columns;
}

/// Sums of one month of one year.
struct MonthSums {
  int days = 0;
  int rain_days = 0;
  double tmax = 0.0;
  double tmin = 0.0;
  double rain = 0.0;
  double mean = 0.0;
  double squares = 0.0;
};

using Months = std::map<std::pair<int, int>, MonthSums>;  // (year, month)

bool add_day(const std::vector<std::string_view>& row, const Columns& columns, Months& months) {
  const auto cell = [&](int at) {
    const auto index = static_cast<std::size_t>(at);
    return index < row.size() ? row[index] : std::string_view();
  };
  const auto date = Date::parse(cell(columns.date));
  if (!date) return false;
  auto tmax = plain_number(cell(columns.tmax));
  auto tmin = plain_number(cell(columns.tmin));
  MonthSums& sums = months[{date->year(), date->month()}];
  if (tmax && tmin) {
    const auto celsius = [&](double t) { return columns.fahrenheit ? (t - 32.0) / 1.8 : t; };
    const double high = celsius(*tmax);
    const double low = celsius(*tmin);
    if (high < low || high > 60.0 || low < -75.0) return false;
    const double mean = (high + low) / 2.0;
    ++sums.days;
    sums.tmax += high;
    sums.tmin += low;
    sums.mean += mean;
    sums.squares += mean * mean;
  }
  if (columns.rain < 0) return true;
  if (const auto rain = plain_number(cell(columns.rain))) {
    if (*rain < 0.0 || *rain > 2000.0) return false;
    ++sums.rain_days;
    sums.rain += columns.inches ? *rain * 25.4 : *rain;
  }
  return true;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

/// One calendar month over all years; returns the years it has.
int summarise(int month, const Months& months, catalogue::ClimateNormals& normals) {
  const auto place = static_cast<std::size_t>(month - 1);
  int years = 0;
  int rain_years = 0;
  double tmax = 0.0;
  double tmin = 0.0;
  double rain = 0.0;
  std::vector<double> spreads;
  for (const auto& [when, sums] : months) {
    if (when.second != month) continue;
    if (sums.rain_days == calendar::days_in_month(when.first, month)) {
      ++rain_years;
      rain += sums.rain;
    }
    if (sums.days < kLeastDays) continue;
    ++years;
    tmax += sums.tmax / sums.days;
    tmin += sums.tmin / sums.days;
    const double mean = sums.mean / sums.days;
    spreads.push_back(std::sqrt(std::max(0.0, sums.squares / sums.days - mean * mean)));
  }
  if (years > 0) {
    normals.tmax_c[place] = tmax / years;
    normals.tmin_c[place] = tmin / years;
    normals.sd_c[place] = median(spreads);
  }
  if (rain_years > 0) normals.rain_mm[place] = rain / rain_years;
  return years;
}

std::optional<Months> read_days(const std::shared_ptr<const diagnostic::SourceFile>& file,
                                Diagnostics& out) {
  std::string_view rest = file->text;
  Columns columns;
  Months months;
  for (int number = 1; !rest.empty(); ++number) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(std::min(rest.size(), end + 1));
    const Source source{file, number, 1, 1};
    if (number == 1) {
      columns = columns_of(line);
      if (columns.date < 0 || columns.tmax < 0 || columns.tmin < 0) {
        out.error("weather-file", "the first line does not name the columns", source,
                  "write `date,tmax_c,tmin_c,rain_mm` (or tmax_f, tmin_f, rain_in)");
        return {};
      }
    } else if (!line.empty() && line != "\r" && !add_day(cells(line), columns, months)) {
      out.error("weather-file", "this line is not a day of weather", source,
                "write date, maximum, minimum and rain in the order of the first line");
      return {};
    }
  }
  return months;
}

}  // namespace

std::optional<catalogue::ClimateNormals> read_weather(
    const std::shared_ptr<const diagnostic::SourceFile>& file,
    const catalogue::ClimateNormals& base, Diagnostics& out) {
  const auto months = read_days(file, out);
  if (!months) return {};
  catalogue::ClimateNormals normals = base;
  int fewest = 1000;
  for (int month = 1; month <= 12; ++month) {
    fewest = std::min(fewest, summarise(month, *months, normals));
  }
  const Source start{file, 1, 1, 1};
  if (fewest == 0) {
    out.error("weather-file", "a month of the year has never 25 days of weather", start,
              "give at least one whole year");
    return {};
  }
  if (fewest < kFewYears) {
    out.warning("weather-short", fmt::format("only {} year(s) of weather", fewest), start,
                "five years and more make normals that can be relied on");
  }
  normals.years = fewest;
  return normals;
}

}  // namespace aftercrop::load
