#include "aftercrop/climate/curves.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace aftercrop::climate {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr std::array<int, 12> kMonthDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr int kRoughYears = 8;  // normals of fewer years keep four harmonics (our choice)

int days_before_month(int month) {
  int days = 0;
  for (int m = 1; m < month; ++m) days += kMonthDays[static_cast<std::size_t>(m - 1)];
  return days;
}

int highest_harmonic(const catalogue::ClimateNormals& normals) {
  return normals.years > 0 && normals.years < kRoughYears ? 4 : 6;
}

}  // namespace

Harmonics::Harmonics(const std::array<double, 12>& monthly_means, int highest) {
  for (const double m : monthly_means) mean_ += m / 12.0;
  for (int j = 1; j <= highest; ++j) {
    const double k = kPi * j / 12.0;
    const double damping = std::sin(k) / k;  // what averaging over a month leaves of harmonic j
    double a = 0.0;
    double b = 0.0;
    for (std::size_t i = 0; i < 12; ++i) {
      const double angle = 2.0 * kPi * j * (static_cast<double>(i) + 0.5) / 12.0;
      a += monthly_means[i] * std::cos(angle);
      b += monthly_means[i] * std::sin(angle);
    }
    cosine_[static_cast<std::size_t>(j)] = a / 6.0 / damping;
    sine_[static_cast<std::size_t>(j)] = b / 6.0 / damping;
  }
  cosine_[6] = 0.0;  // at mid-month points harmonic 6 has a sine part only
  sine_[6] /= 2.0;
}

double Harmonics::at(double phase) const {
  const double angle = 2.0 * kPi * phase / 12.0;
  const double c1 = std::cos(angle);
  const double s1 = std::sin(angle);
  double c = 1.0;
  double s = 0.0;
  double value = mean_;
  for (std::size_t j = 1; j <= 6; ++j) {
    const double next = c * c1 - s * s1;
    s = s * c1 + c * s1;
    c = next;
    value += cosine_[j] * c + sine_[j] * s;
  }
  return value;
}

double phase_of(calendar::Date day) {
  const int length = calendar::days_in_month(day.year(), day.month());
  return day.month() - 1 + (day.day() - 0.5) / length;
}

double phase_of_year_day(double j) {
  double rest = days_forward(0.5, j);  // days since the start of 1 January
  for (std::size_t m = 0; m < 12; ++m) {
    if (rest < kMonthDays[m]) return static_cast<double>(m) + rest / kMonthDays[m];
    rest -= kMonthDays[m];
  }
  return 0.0;
}

int year_day(calendar::Date day) { return year_day(catalogue::MonthDay{day.month(), day.day()}); }

int year_day(catalogue::MonthDay day) {
  const int length = kMonthDays[static_cast<std::size_t>(day.month - 1)];
  return days_before_month(day.month) + std::min(day.day, length);
}

double days_forward(double a, double b) {
  const double rest = std::fmod(b - a, 365.0);
  return rest < 0.0 ? rest + 365.0 : rest;
}

double days_apart(double a, double b) {
  const double forward = days_forward(a, b);
  return forward < 182.5 ? forward : forward - 365.0;
}

Curves::Curves(const catalogue::ClimateNormals& normals)
    : tmax_(normals.tmax_c, highest_harmonic(normals)),
      tmin_(normals.tmin_c, highest_harmonic(normals)),
      rain_mm_(normals.rain_mm) {
  double lowest = tmean_at(1);
  double highest = lowest;
  coldest_day_ = warmest_day_ = 1;
  for (int j = 2; j <= 365; ++j) {
    const double mean = tmean_at(j);
    if (mean < lowest) {
      lowest = mean;
      coldest_day_ = j;
    }
    if (mean > highest) {
      highest = mean;
      warmest_day_ = j;
    }
  }
  coldest_month_c_ = warmest_month_c_ = (normals.tmax_c[0] + normals.tmin_c[0]) / 2.0;
  for (std::size_t m = 1; m < 12; ++m) {
    const double mean = (normals.tmax_c[m] + normals.tmin_c[m]) / 2.0;
    coldest_month_c_ = std::min(coldest_month_c_, mean);
    warmest_month_c_ = std::max(warmest_month_c_, mean);
  }
}

double Curves::tmax(calendar::Date day) const {
  const double phase = phase_of(day);
  return std::max(tmax_.at(phase), tmin_.at(phase) + 0.5);
}

double Curves::tmin(calendar::Date day) const { return tmin_.at(phase_of(day)); }

double Curves::rain(calendar::Date day) const {
  const int length = calendar::days_in_month(day.year(), day.month());
  return rain_mm_[static_cast<std::size_t>(day.month() - 1)] / length;
}

double Curves::tmin_at(double j) const { return tmin_.at(phase_of_year_day(j)); }

double Curves::tmean_at(double j) const {
  const double phase = phase_of_year_day(j);
  const double low = tmin_.at(phase);
  return (std::max(tmax_.at(phase), low + 0.5) + low) / 2.0;
}

}  // namespace aftercrop::climate
