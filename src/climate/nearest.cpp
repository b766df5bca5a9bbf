#include "aftercrop/climate/nearest.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "aftercrop/climate/curves.h"
#include "aftercrop/climate/frost.h"

namespace aftercrop::climate {
namespace {

using catalogue::ClimateNormals;
using catalogue::MonthDay;

constexpr double kEarthRadiusKm = 6371.0;

double square(double x) { return x * x; }

bool north(MonthDay last, MonthDay first, std::optional<double> latitude) {
  return latitude ? *latitude >= 0.0 : year_day(last) < year_day(first);
}

double distance_km(double lat_a, double lon_a, double lat_b, double lon_b) {
  const double rad = std::numbers::pi / 180.0;
  const double h =
      square(std::sin((lat_b - lat_a) * rad / 2.0)) +
      std::cos(lat_a * rad) * std::cos(lat_b * rad) * square(std::sin((lon_b - lon_a) * rad / 2.0));
  return 2.0 * kEarthRadiusKm * std::asin(std::sqrt(std::min(1.0, h)));
}

void shift(std::array<double, 12>& months, double by) {
  for (double& month : months) month += by;
}

double limited(double wanted, const catalogue::FrostCoefficients& k) {
  return std::clamp(wanted, -k.greatest_shift_c.value, k.greatest_shift_c.value);
}

}  // namespace

std::optional<BorrowedNormals> nearest_by_frost(const std::vector<ClimateNormals>& sites,
                                                MonthDay last_frost, MonthDay first_frost,
                                                const catalogue::FrostCoefficients& k,
                                                std::optional<double> latitude) {
  const bool in_north = north(last_frost, first_frost, latitude);
  const double away_from_equator = std::abs(latitude.value_or(k.usual_latitude));
  const double last = year_day(last_frost);
  const double first = year_day(first_frost);
  BorrowedNormals best;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < sites.size(); ++i) {
    const ClimateNormals& site = sites[i];
    if ((site.latitude >= 0.0) != in_north || !site.last_frost || !site.first_frost) continue;
    const double last_off = days_apart(last, year_day(*site.last_frost));
    const double first_off = days_apart(first, year_day(*site.first_frost));
    const double away = square(last_off / k.date_scale_days) +
                        square(first_off / k.date_scale_days) +
                        square((std::abs(site.latitude) - away_from_equator) / k.latitude_scale);
    if (away >= least) continue;
    least = away;
    best.site = i;
    best.last_off_days = last_off;
    best.first_off_days = first_off;
  }
  if (!std::isfinite(least)) return std::nullopt;
  best.normals = sites[best.site];
  const Curves curves(best.normals);
  best.wanted_shift_c = k.curve_at_frost_c - (curves.tmin_at(last) + curves.tmin_at(first)) / 2.0;
  best.shift_c = limited(best.wanted_shift_c, k);
  shift(best.normals.tmin_c, best.shift_c);
  shift(best.normals.tmax_c, best.shift_c);
  best.normals.last_frost = last_frost;
  best.normals.first_frost = first_frost;
  best.normals.latitude = latitude.value_or(best.normals.latitude);
  return best;
}

std::optional<BorrowedNormals> nearest_by_place(const std::vector<ClimateNormals>& sites,
                                                double latitude, double longitude) {
  BorrowedNormals best;
  best.distance_km = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < sites.size(); ++i) {
    const double away = distance_km(latitude, longitude, sites[i].latitude, sites[i].longitude);
    if (away >= best.distance_km) continue;
    best.distance_km = away;
    best.site = i;
  }
  if (!std::isfinite(best.distance_km)) return std::nullopt;
  best.normals = sites[best.site];
  best.normals.latitude = latitude;
  best.normals.longitude = longitude;
  return best;
}

ClimateNormals corrected_by_frost(const ClimateNormals& normals, std::optional<MonthDay> last_frost,
                                  std::optional<MonthDay> first_frost,
                                  const catalogue::SiteCoefficients& coefficients) {
  if (!last_frost && !first_frost) return normals;
  ClimateNormals result = normals;
  const Curves curves(normals);
  const FrostModel frost(normals, curves, coefficients);
  double wanted = 0.0;
  if (last_frost) wanted += frost.last_offset_c() - curves.tmin_at(year_day(*last_frost));
  if (first_frost) wanted += frost.first_offset_c() - curves.tmin_at(year_day(*first_frost));
  if (last_frost && first_frost) wanted /= 2.0;
  const double by = limited(wanted, coefficients.frost);
  shift(result.tmin_c, by);
  for (std::size_t m = 0; m < 12; ++m) {
    result.tmax_c[m] = std::max(result.tmax_c[m], result.tmin_c[m] + 0.5);
  }
  // A date that is not given moves with the shifted minimum, by the site's own offset.
  const FrostModel moved(normals, curves, coefficients, by);
  const auto month_day = [](std::optional<double> day) -> std::optional<MonthDay> {
    if (!day) return std::nullopt;
    const auto date = FrostModel::nearest(*day, *calendar::Date::from_ymd(2027, 7, 2));
    return MonthDay{date.month(), date.day()};
  };
  result.last_frost = last_frost ? last_frost : month_day(moved.last_day(0.0));
  result.first_frost = first_frost ? first_frost : month_day(moved.first_day(0.0));
  if (!result.last_frost) result.last_frost = month_day(curves.coldest_day());
  if (!result.first_frost) result.first_frost = month_day(curves.coldest_day());
  result.frost_years = std::max(result.frost_years, 0.5);
  return result;
}

}  // namespace aftercrop::climate
