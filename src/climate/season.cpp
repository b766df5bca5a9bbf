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
