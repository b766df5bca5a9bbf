#include "aftercrop/climate/frost.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace aftercrop::climate {
namespace {

constexpr double kSouthShift = 181.0;  // 15 January to 15 July

using Nodes = std::array<double, 6>;

double interpolate(const Nodes& xs, const Nodes& ys, double x) {
  if (x <= xs.front()) return ys.front();
  for (std::size_t i = 1; i < xs.size(); ++i) {
    if (x > xs[i]) continue;
    const double share = (x - xs[i - 1]) / (xs[i] - xs[i - 1]);
    return ys[i - 1] + share * (ys[i] - ys[i - 1]);
  }
  return ys.back();
}

// A record of 18 to 20 years in which every winter froze says that about one in twenty may not.
constexpr double kMostYears = 0.95;

// The mean of the lowest minimum of each year: below the mean minimum of its month by a number of
// standard deviations of that month's days.
double lowest_of_year(const catalogue::ClimateNormals& normals, double deviations) {
  double lowest = normals.tmin_c[0] - deviations * normals.sd_c[0];
  for (std::size_t m = 1; m < 12; ++m) {
    lowest = std::min(lowest, normals.tmin_c[m] - deviations * normals.sd_c[m]);
  }
  return lowest;
}

}  // namespace

double normal_below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double normal_quantile(double p) {
  if (p > 0.5) return -normal_quantile(1.0 - p);
  const double t = std::sqrt(-2.0 * std::log(std::max(p, 1e-12)));
  // Abramowitz and Stegun 1964, 26.2.23, then Newton.
  double z = (2.515517 + t * (0.802853 + t * 0.010328)) /
                 (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308))) -
             t;
  for (int i = 0; i < 2; ++i) {
    const double density = std::exp(-z * z / 2.0) / std::sqrt(2.0 * std::numbers::pi);
    z -= (normal_below(z) - p) / density;
  }
  return z;
}

FrostModel::FrostModel(const catalogue::ClimateNormals& normals, const Curves& curves,
                       const catalogue::SiteCoefficients& coefficients, double gain_c)
    : gain_c_(gain_c),
      winter_spread_c_(coefficients.frost.winter_spread_c),
      coldest_day_(static_cast<int>(curves.coldest_day())),
      warmest_day_(static_cast<int>(curves.warmest_day())),
      spring_days_(static_cast<int>(days_forward(coldest_day_, warmest_day_))) {
  for (int j = 1; j <= 365; ++j) tmin_[static_cast<std::size_t>(j)] = curves.tmin_at(j);
  lowest_c_ = lowest_of_year(normals, coefficients.frost.coldest_night_sd);
  find_dates(normals, coefficients.frost.curve_at_frost_c);
  const double midwinter = normals.latitude < 0.0 ? 15.0 + kSouthShift : 15.0;
  if (last_) {
    const catalogue::FrostSpread& spread = coefficients.frost_spread;
    share_of_years_ = std::clamp(normals.frost_years, 0.5, 1.0);
    last_sd_ =
        interpolate(spread.last_from_midwinter, spread.last_sd_days, days_apart(midwinter, *last_));
    first_sd_ = interpolate(spread.first_from_midwinter, spread.first_sd_days,
                            days_apart(*first_, midwinter));
  }
  last_sd_ = normals.last_frost_sd_days.value_or(last_sd_);
  first_sd_ = normals.first_frost_sd_days.value_or(first_sd_);
}

void FrostModel::find_dates(const catalogue::ClimateNormals& normals, double curve_at_frost_c) {
  if (normals.last_frost && normals.first_frost) {
    last_ = year_day(*normals.last_frost);
    first_ = year_day(*normals.first_frost);
  } else if (normals.frost_years >= 0.5) {
    last_ = crossing(coldest_day_, spring_days_, curve_at_frost_c, coldest_day_);
    first_ = crossing(warmest_day_, 365 - spring_days_, curve_at_frost_c, warmest_day_);
    if (!last_ || !first_) last_ = first_ = std::nullopt;
  }
  if (last_) {
    last_offset_c_ = curve(static_cast<int>(std::lround(*last_)));
    first_offset_c_ = curve(static_cast<int>(std::lround(*first_)));
    const double share = std::clamp(normals.frost_years, 0.5, kMostYears);
    lowest_c_ = std::min(lowest_c_, -winter_spread_c_ * normal_quantile(share));
    return;
  }
  // Frost-free in the median year: the offset that gives 0 C the known share of years.
  const double share = std::clamp(normals.frost_years, 0.02, 0.45);
  const double seldom = curve(coldest_day_) + winter_spread_c_ * normal_quantile(share);
  last_offset_c_ = first_offset_c_ = std::min(curve_at_frost_c, seldom);
  lowest_c_ = std::max(lowest_c_, -winter_spread_c_ * normal_quantile(share));
}

double FrostModel::curve(int day) const {
  const int wrapped = (day - 1) % 365;
  return tmin_[static_cast<std::size_t>(wrapped < 0 ? wrapped + 366 : wrapped + 1)];
}

// The day nearest to `near`, within `days` from `from`, at which the curve passes the level.
std::optional<double> FrostModel::crossing(int from, int days, double level_c, double near) const {
  const int start = std::clamp(static_cast<int>(days_forward(from, near)), 0, days - 1);
  for (int away = 0; away < days; ++away) {
    for (const int step : {start - away, start + away}) {
      if (step < 0 || step >= days) continue;
      const double here = curve(from + step) - level_c;
      const double there = curve(from + step + 1) - level_c;
      if ((here < 0.0) == (there < 0.0)) continue;
      return 1.0 + days_forward(1.0, from + step + here / (here - there));
    }
  }
  return std::nullopt;
}

// What the mean minimum is when the median night at `outside_c` is reached. Two points are known:
// 0 C on the frost date, and the lowest night of the year about its coldest day. Near the frost
// date a night that is colder by a degree comes as the mean falls by one; towards mid-winter the
// nights that may still bring it add up, and the mean has to fall by less.
std::optional<double> FrostModel::level(double outside_c, double offset_c) const {
  const double coldest = curve(coldest_day_);
  const double fall = offset_c - coldest;
  if (outside_c >= 0.0 || fall <= 0.0 || -lowest_c_ <= fall) {
    const double plain = outside_c + offset_c;
    return coldest > plain ? std::nullopt : std::optional<double>(plain);
  }
  const double share = outside_c / lowest_c_;
  if (share >= 1.0) return std::nullopt;
  return offset_c - fall * (1.0 - std::pow(1.0 - share, -lowest_c_ / fall));
}

std::optional<double> FrostModel::last_day(double killing_c) const {
  const double outside = killing_c - gain_c_;
  if (outside == 0.0) return last_;
  const auto mean = level(outside, last_offset_c_);
  if (!mean) return std::nullopt;
  const auto day = crossing(coldest_day_, spring_days_, *mean, last_.value_or(coldest_day_));
  return day ? day : std::optional<double>(outside < 0.0 ? coldest_day_ : warmest_day_);
}

std::optional<double> FrostModel::first_day(double killing_c) const {
  const double outside = killing_c - gain_c_;
  if (outside == 0.0) return first_;
  const auto mean = level(outside, first_offset_c_);
  if (!mean) return std::nullopt;
  const auto day = crossing(warmest_day_, 365 - spring_days_, *mean, first_.value_or(coldest_day_));
  return day ? day : std::optional<double>(outside < 0.0 ? coldest_day_ : warmest_day_);
}

std::optional<double> FrostModel::last_day_at(double killing_c, double chance) const {
  const auto median = last_day(killing_c);
  if (!median) return std::nullopt;
  return 1.0 + days_forward(1.0, *median + normal_quantile(1.0 - chance) * last_sd_);
}

std::optional<double> FrostModel::first_day_at(double killing_c, double chance) const {
  const auto median = first_day(killing_c);
  if (!median) return std::nullopt;
  return 1.0 + days_forward(1.0, *median + normal_quantile(chance) * first_sd_);
}

double FrostModel::chance_in_winter(double killing_c) const {
  return normal_below((killing_c - gain_c_ - lowest_c_) / winter_spread_c_);
}

double FrostModel::chance_after(calendar::Date day, double killing_c) const {
  if (!in_spring_half(day)) return 0.0;
  const double median = last_day(killing_c).value_or(coldest_day_);
  const double chance =
      share_of_years_ * (1.0 - normal_below(spring_days_after(median, day) / last_sd_));
  return std::min(chance, chance_in_winter(killing_c));
}

double FrostModel::chance_before(calendar::Date day, double killing_c) const {
  const double winter = chance_in_winter(killing_c);
  if (in_spring_half(day)) return winter;
  const double median = first_day(killing_c).value_or(coldest_day_);
  // Counted from the warmest day: a first frost may fall after the coldest day.
  const double late =
      days_forward(warmest_day_, year_day(day)) - days_forward(warmest_day_, median);
  return std::min(winter, share_of_years_ * normal_below(late / first_sd_));
}

std::optional<calendar::Date> FrostModel::date_reached(calendar::Date from, double killing_c,
                                                       double chance) const {
  if (chance_in_winter(killing_c) < chance || share_of_years_ <= chance) return std::nullopt;
  const double median = first_day(killing_c).value_or(coldest_day_);
  const int autumn_days = 365 - spring_days_;
  const double wanted =
      days_forward(warmest_day_, median) + first_sd_ * normal_quantile(chance / share_of_years_);
  if (wanted >= autumn_days) return std::nullopt;
  const double here = days_forward(warmest_day_, year_day(from));
  if (here < autumn_days && here >= wanted) return from;
  const double ahead = here < autumn_days ? wanted - here : 365.0 - here + wanted;
  return from.plus_days(static_cast<int>(std::ceil(ahead)));
}

// Counted from the coldest day, because a spring may be longer than half a year; a last frost may
// fall before the coldest day.
double FrostModel::spring_days_after(double median, calendar::Date day) const {
  return days_forward(coldest_day_, year_day(day)) - days_apart(coldest_day_, median);
}

std::optional<double> FrostModel::days_since_last(calendar::Date day) const {
  const auto last = last_day(0.0);
  if (!last) return std::nullopt;
  return spring_days_after(*last, day);
}

bool FrostModel::in_spring_half(calendar::Date day) const {
  return days_forward(coldest_day_, year_day(day)) < spring_days_;
}

calendar::Date FrostModel::nearest(double year_day_number, calendar::Date near) {
  const double away = days_apart(year_day(near), year_day_number);
  // A leap day between the two moves the result by one: step on until the day of the year fits.
  calendar::Date found = near.plus_days(static_cast<int>(std::lround(away)));
  const int wanted = 1 + static_cast<int>(days_forward(1.0, std::round(year_day_number)));
  for (const int step : {0, 1, -1}) {
    if (year_day(found.plus_days(step)) == wanted) return found.plus_days(step);
  }
  return found;
}

}  // namespace aftercrop::climate
