#include <algorithm>
#include <cmath>

#include "aftercrop/climate/site_climate.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;

// A coldest day in the last weeks of a calendar year opens the season of the next (day of year).
constexpr double kLateInYear = 274.0;

}  // namespace

void SiteClimate::fill_seasons() {
  first_season_ = calendar::iso(covered_.first).year - 2;
  const int last_season = calendar::iso(covered_.past).year + 2;
  for (int season = first_season_; season <= last_season; ++season) {
    seasons_.push_back(coldest_week(season));
  }
  double mean = 0.0;
  for (int j = 1; j <= 365; ++j) mean += curves_.tmean_at(j) / 365.0;
  const int coldest = static_cast<int>(curves_.coldest_day());
  int before = 0;
  while (before < 364 && curves_.tmean_at(coldest - before) < mean) ++before;
  int after = 0;
  while (after < 364 && curves_.tmean_at(coldest + after) < mean) ++after;
  cool_start_ = 1.0 + days_forward(1.0, coldest - before);
  cool_end_ = 1.0 + days_forward(1.0, coldest + after);
  const double autumn_mean = coefficients_->year.autumn_mean_c;
  const double warmest = curves_.warmest_day();
  int warm = 0;
  while (warm < 364 && curves_.tmean_at(warmest + warm) >= autumn_mean) ++warm;
  const bool summer = curves_.tmean_at(warmest) >= autumn_mean;
  if (summer && warm < 364) cooled_down_ = 1.0 + days_forward(1.0, warmest + warm);
  const Date middle = FrostModel::nearest(coldest, calendar::monday(covered_.first));
  for (int i = -3; i <= 3; ++i) {
    const Day day = sheltered(open_day(middle.plus_days(i), {}));
    coldest_week_c_ += (day.tmax_c + day.tmin_c) / 14.0;
  }
}

Week SiteClimate::coldest_week(int season) const {
  const double day = curves_.coldest_day();
  const int year = day > kLateInYear ? season - 1 : season;
  const Date middle = *Date::from_ymd(year, 7, 2);  // the day of mid-year is within 182 of all
  return calendar::week_of(FrostModel::nearest(day, middle));
}

Week SiteClimate::season_start(int season) const {
  const int at = season - first_season_;
  if (at >= 0 && at < static_cast<int>(seasons_.size())) {
    return seasons_[static_cast<std::size_t>(at)];
  }
  return coldest_week(season);
}

Week SiteClimate::next_coldest(Week week) const {
  int season = calendar::iso(week).year - 1;
  while (season_start(season) < week) ++season;
  return season_start(season);
}

int SiteClimate::season_of(calendar::WeekSpan stand) const {
  const Week past = std::max(stand.past, stand.first + Weeks(1));
  int season = calendar::iso(stand.first).year + 1;
  while (season_start(season) > stand.first) --season;
  int best = season;
  int most = 0;
  for (; season_start(season) < past; ++season) {
    const Week from = std::max(stand.first, season_start(season));
    const Week to = std::min(past, season_start(season + 1));
    if ((to - from).count() < most) continue;
    most = (to - from).count();
    best = season;
  }
  return best;
}

}  // namespace aftercrop::climate
