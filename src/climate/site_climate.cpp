#include "aftercrop/climate/site_climate.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/sun.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using garden::Shelter;

constexpr int kSpinUpWeeks = 104;

// Share of the gain that is left as the weather warms: fleece is taken off, a tunnel is vented.
double gain_left(double mean_c, const catalogue::ShelterCoefficients& k) {
  return 1.0 - std::clamp((mean_c - k.vent_from_c) / (k.vented_at_c - k.vent_from_c), 0.0, 1.0);
}

double noon_gain(Shelter shelter, double mean_c, const catalogue::ShelterCoefficients& k) {
  if (shelter == Shelter::Fleece) return k.fleece_noon_c * gain_left(mean_c, k);
  if (shelter != Shelter::Tunnel) return 0.0;
  return k.tunnel_vented_noon_c + (k.tunnel_noon_c - k.tunnel_vented_noon_c) * gain_left(mean_c, k);
}

double night_gain(Shelter shelter, double mean_c, const catalogue::ShelterCoefficients& k) {
  return night_gain_c(shelter, k) * (shelter == Shelter::Fleece ? gain_left(mean_c, k) : 1.0);
}

}  // namespace

double night_gain_c(Shelter shelter, const catalogue::ShelterCoefficients& coefficients) {
  if (shelter == Shelter::Fleece) return coefficients.fleece_night_c;
  return shelter == Shelter::Tunnel ? coefficients.tunnel_night_c.value : 0.0;
}

ThermalTime thermal_time(const catalogue::Crop& crop) {
  return {crop.base_c, crop.cap_c, cool_crop(crop.base_c)};
}

SiteClimate::SiteClimate(const catalogue::ClimateNormals& normals, Shelter shelter,
                         calendar::WeekSpan covered,
                         const catalogue::SiteCoefficients& coefficients,
                         std::span<const garden::WeatherDay> measured)
    : coefficients_(&coefficients),
      covered_(covered),
      shelter_(shelter),
      latitude_(normals.latitude),
      curves_(normals),
      frost_(normals, curves_, coefficients, night_gain_c(shelter, coefficients.shelter)) {
  if (covered_.past <= covered_.first) covered_.past = covered_.first + Weeks(1);
  for (int j = 1; j <= 365; ++j) {
    daylight_[static_cast<std::size_t>(j)] = day_length(latitude_, j);
  }
  fill_weeks(measured);
  fill_soil();
  fill_seasons();
  prepare(0.0, 99.0);
}

SiteClimate::Day SiteClimate::open_day(Date day,
                                       std::span<const garden::WeatherDay> measured) const {
  Day open{curves_.tmax(day), curves_.tmin(day), curves_.rain(day)};
  const auto found = std::lower_bound(
      measured.begin(), measured.end(), day,
      [](const garden::WeatherDay& one, Date wanted) { return one.date < wanted; });
  if (found == measured.end() || found->date != day) return open;
  open.tmax_c = found->tmax_c;
  open.tmin_c = found->tmin_c;
  open.rain_mm = found->rain_mm.value_or(open.rain_mm);
  return open;
}

SiteClimate::Day SiteClimate::sheltered(const Day& open) const {
  const double mean = (open.tmax_c + open.tmin_c) / 2.0;
  const catalogue::ShelterCoefficients& k = coefficients_->shelter;
  return {open.tmax_c + noon_gain(shelter_, mean, k), open.tmin_c + night_gain(shelter_, mean, k),
          open.rain_mm};
}

void SiteClimate::fill_weeks(std::span<const garden::WeatherDay> measured) {
  for (Week week = covered_.first; week < covered_.past; ++week) {
    WeekWeather weather;
    const Date first = calendar::monday(week);
    for (int i = 0; i < 7; ++i) {
      const Date date = first.plus_days(i);
      const Day open = open_day(date, measured);
      const Day day = sheltered(open);
      days_.push_back(day);
      weather.tmax_c += day.tmax_c / 7.0;
      weather.tmin_c += day.tmin_c / 7.0;
      weather.rain_mm += open.rain_mm;
      weather.et0_mm += reference_evapotranspiration(
          open.tmax_c, open.tmin_c, extraterrestrial_radiation(latitude_, year_day(date)));
    }
    weather.air_c = (weather.tmax_c + weather.tmin_c) / 2.0;
    weather.daylight_h = daylight_h(first.plus_days(3));
    if (shelter_ == Shelter::Tunnel) {
      weather.rain_mm = 0.0;
      weather.et0_mm *= coefficients_->shelter.tunnel_evaporation;
    }
    weeks_.push_back(weather);
  }
}

// Soil follows the weekly air with a lag; two years before the first week make it settle.
void SiteClimate::fill_soil() {
  double shallow = 0.0;
  for (int j = 1; j <= 365; ++j) shallow += curves_.tmean_at(j) / 365.0;
  double ten = shallow;
  const catalogue::GroundCoefficients& k = coefficients_->ground;
  const auto frozen = [&](double c) { return c < 0.0 ? k.frozen_share * c : c; };
  const auto advance = [&](double air) {
    shallow += k.smoothing_shallow * (air - shallow);
    ten += k.smoothing_ten_cm * (air - ten);
  };
  for (Week week = covered_.first - Weeks(kSpinUpWeeks); week < covered_.first; ++week) {
    double air = 0.0;
    for (int i = 0; i < 7; ++i) {
      const Day day = sheltered(open_day(calendar::monday(week).plus_days(i), {}));
      air += (day.tmax_c + day.tmin_c) / 14.0;
    }
    advance(air);
  }
  for (WeekWeather& weather : weeks_) {
    advance(weather.air_c);
    weather.soil5_c = frozen(shallow);
    warmest_soil_c_ = std::max(warmest_soil_c_, weather.soil5_c);
    weather.soil10_c = frozen(ten);
  }
}

std::size_t SiteClimate::place(Week week) const {
  const int last = covered_.length().count() - 1;
  return static_cast<std::size_t>(std::clamp((week - covered_.first).count(), 0, last));
}

std::size_t SiteClimate::day_place(Week week) const {
  const int weeks = covered_.length().count();
  return 7 * static_cast<std::size_t>(std::clamp((week - covered_.first).count(), 0, weeks));
}

const WeekWeather& SiteClimate::at(Week week) const { return weeks_[place(week)]; }

double SiteClimate::mean_air_c(Week a, Week b) const {
  if (b <= a) return at(a).air_c;
  double sum = 0.0;
  for (Week week = a; week < b; ++week) sum += at(week).air_c;
  return sum / (b - a).count();
}

double SiteClimate::daylight_h(Date day) const {
  return daylight_[static_cast<std::size_t>(year_day(day))];
}

double SiteClimate::longest_day_h() const {
  return *std::max_element(daylight_.begin() + 1, daylight_.end());
}

SiteClimate::Sums SiteClimate::running_sums(double base_c, double cap_c) const {
  const catalogue::YearCoefficients& year = coefficients_->year;
  Sums sums;
  sums.plain.reserve(days_.size() + 1);
  sums.slowed.reserve(days_.size() + 1);
  sums.plain.push_back(0.0);
  sums.slowed.push_back(0.0);
  const Date first = calendar::monday(covered_.first);
  for (std::size_t i = 0; i < days_.size(); ++i) {
    const double today = sine_degree_days(days_[i].tmax_c, days_[i].tmin_c, base_c, cap_c);
    const double light = daylight_h(first.plus_days(static_cast<int>(i)));
    sums.plain.push_back(sums.plain.back() + today);
    sums.slowed.push_back(sums.slowed.back() +
                          (light < year.short_day_h ? year.short_day_share.value : 1.0) * today);
  }
  return sums;
}

void SiteClimate::prepare(double base_c, double cap_c) {
  const std::pair key{base_c, cap_c};
  if (sums_.count(key) == 0) sums_.emplace(key, running_sums(base_c, cap_c));
}

void SiteClimate::prepare(const std::vector<catalogue::Crop>& crops) {
  for (const catalogue::Crop& crop : crops) prepare(crop.base_c, crop.cap_c);
}

double SiteClimate::degree_days(Week a, Week b, double base_c, double cap_c) const {
  const std::size_t from = day_place(a);
  const std::size_t to = day_place(b);
  if (to <= from) return 0.0;
  const auto found = sums_.find({base_c, cap_c});
  if (found != sums_.end()) return found->second.plain[to] - found->second.plain[from];
  double sum = 0.0;
  for (std::size_t i = from; i < to; ++i) {
    sum += sine_degree_days(days_[i].tmax_c, days_[i].tmin_c, base_c, cap_c);
  }
  return sum;
}

std::optional<int> SiteClimate::days_to_sum(Date from, double need, ThermalTime time,
                                            int limit) const {
  const int start = calendar::days_between(calendar::monday(covered_.first), from);
  if (start < 0 || start >= static_cast<int>(days_.size())) return std::nullopt;
  const auto found = sums_.find({time.base_c, time.cap_c});
  Sums own;
  if (found == sums_.end()) own = running_sums(time.base_c, time.cap_c);
  const Sums& sums = found == sums_.end() ? own : found->second;
  const std::vector<double>& running = time.short_days_slow ? sums.slowed : sums.plain;
  const auto first = running.begin() + start;
  const auto reached = std::lower_bound(first + 1, running.end(), *first + need);
  if (reached == running.end()) return std::nullopt;
  const int days = static_cast<int>(reached - first);
  return days <= limit ? std::optional<int>(days) : std::nullopt;
}

// No spring and no autumn: a year nearly even, or frost-free and warm throughout.
bool SiteClimate::no_season() const {
  const double range = curves_.warmest_month_c() - curves_.coldest_month_c();
  const catalogue::YearCoefficients& k = coefficients_->year;
  return range < k.even_year_c ||
         (!frost_.has_frost() && curves_.coldest_month_c() > k.warm_winter_c);
}

}  // namespace aftercrop::climate
