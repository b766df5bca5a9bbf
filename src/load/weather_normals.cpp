#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "aftercrop/climate/curves.h"
#include "load/weather_file.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using garden::WeatherDay;

constexpr int kLeastDays = 25;              // of a month that counts
constexpr int kLeastSeasonDays = 330;       // of a cold season that counts
constexpr std::size_t kSpreadSeasons = 10;  // from so many on the spread of frosts is measured
constexpr int kDaysOfYear = 365;

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

Months sum_months(const std::vector<WeatherDay>& days) {
  Months months;
  for (const WeatherDay& day : days) {
    MonthSums& sums = months[{day.date.year(), day.date.month()}];
    const double mean = (day.tmax_c + day.tmin_c) / 2.0;
    ++sums.days;
    sums.tmax += day.tmax_c;
    sums.tmin += day.tmin_c;
    sums.mean += mean;
    sums.squares += mean * mean;
    if (!day.rain_mm) continue;
    ++sums.rain_days;
    sums.rain += *day.rain_mm;
  }
  return months;
}

/// Value below which `share` of the sorted values lie, by ranking.
double ranked(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(place);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (place - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

void summarise_month(int month, const Months& months, catalogue::ClimateNormals& normals) {
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
    std::sort(spreads.begin(), spreads.end());
    normals.tmax_c[place] = tmax / years;
    normals.tmin_c[place] = tmin / years;
    normals.sd_c[place] = std::max(0.3, ranked(spreads, 0.5));
  }
  if (rain_years > 0) normals.rain_mm[place] = rain / rain_years;
}

/// The frosts of one cold season, in days from its start at the warmest day of the year.
struct ColdSeason {
  int days = 0;
  int first = -1;  ///< -1 = none
  int last = -1;
};

catalogue::MonthDay month_day(double days_from_warmest, double warmest) {
  const int day = 1 + static_cast<int>(climate::days_forward(1.0, warmest + days_from_warmest));
  const Date date = Date::from_ymd(2027, 1, 1)->plus_days(day - 1);
  return {date.month(), date.day()};
}

/// Median frosts: a season without one counts as before everything, and after everything.
void summarise_frosts(const std::vector<WeatherDay>& days, catalogue::ClimateNormals& normals) {
  const double warmest = climate::Curves(normals).warmest_day();
  std::map<int, ColdSeason> seasons;
  for (const WeatherDay& day : days) {
    const int at = climate::year_day(day.date);
    ColdSeason& season = seasons[at > warmest ? day.date.year() : day.date.year() - 1];
    ++season.days;
    if (day.tmin_c > 0.0) continue;
    const int since = static_cast<int>(climate::days_forward(warmest, at));
    season.first = season.first < 0 ? since : std::min(season.first, since);
    season.last = std::max(season.last, since);
  }
  std::vector<double> firsts;
  std::vector<double> lasts;
  std::size_t with_frost = 0;
  for (const auto& [year, season] : seasons) {
    if (season.days < kLeastSeasonDays) continue;
    with_frost += season.first >= 0 ? 1 : 0;
    firsts.push_back(season.first >= 0 ? season.first : kDaysOfYear);
    lasts.push_back(season.last >= 0 ? season.last : 0);
  }
  if (firsts.empty()) return;
  std::sort(firsts.begin(), firsts.end());
  std::sort(lasts.begin(), lasts.end());
  normals.frost_years = static_cast<double>(with_frost) / static_cast<double>(firsts.size());
  normals.last_frost.reset();
  normals.first_frost.reset();
  normals.last_frost_sd_days.reset();
  normals.first_frost_sd_days.reset();
  if (normals.frost_years < 0.5) return;
  normals.first_frost = month_day(ranked(firsts, 0.5), warmest);
  normals.last_frost = month_day(ranked(lasts, 0.5), warmest);
  if (firsts.size() < kSpreadSeasons || with_frost < firsts.size()) return;
  normals.last_frost_sd_days = std::max(1.0, (ranked(lasts, 0.84) - ranked(lasts, 0.16)) / 2.0);
  normals.first_frost_sd_days = std::max(1.0, (ranked(firsts, 0.84) - ranked(firsts, 0.16)) / 2.0);
}

}  // namespace

int complete_years(const std::vector<WeatherDay>& days) {
  std::array<int, 12> years{};
  for (const auto& [when, sums] : sum_months(days)) {
    if (sums.days >= kLeastDays) ++years[static_cast<std::size_t>(when.second - 1)];
  }
  return *std::min_element(years.begin(), years.end());
}

catalogue::ClimateNormals normals_of(const std::vector<WeatherDay>& days,
                                     const catalogue::ClimateNormals& base) {
  const Months months = sum_months(days);
  catalogue::ClimateNormals normals = base;
  for (int month = 1; month <= 12; ++month) summarise_month(month, months, normals);
  summarise_frosts(days, normals);
  normals.years = complete_years(days);
  return normals;
}

}  // namespace aftercrop::load
