#include "load/stand_years.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/climate/window.h"

namespace aftercrop::load {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;
using catalogue::CropId;
using climate::SiteClimate;

constexpr int kWeeksOfYear = 52;
// The year that stands for all others, and the years of weather around it.
constexpr int kYear = 2027;
constexpr int kYearsOfWeather = 4;
// A cover that is sown too late to be ended before winter stands until the weeks of spring begin:
// our choice.
constexpr int kSpringWeeks = 14;
constexpr int kCoverExtraWeeks = 3;
// Weeks after the coldest one when most crops are in the ground: our choice.
constexpr int kGrowingWeek = 18;

WeekSpan weather_weeks() {
  const Week first = calendar::week_of(*calendar::Date::from_ymd(kYear - 1, 1, 4));
  return {first, first + Weeks(kYearsOfWeather * kWeeksOfYear)};
}

Week week_of_year(int number) {
  return calendar::week_of(*calendar::Date::from_ymd(kYear, 1, 4)) +
         Weeks(std::min(number, kWeeksOfYear) - 1);
}

Run cover_run(const Crop& crop, const SiteClimate& site, Week start) {
  const Week useful = start + Weeks(crop.cover->weeks_to_stand + kCoverExtraWeeks);
  const int season = site.season_of({start, start + Weeks(1)});
  const Week coldest = site.season_start(season + 1);
  const bool into_winter = useful + Weeks(kCoverExtraWeeks) >= coldest;
  const Week past = into_winter ? std::max(useful, coldest + Weeks(kSpringWeeks)) : useful;
  return {true, past - start, past - start, past - start};
}

Run perennial_run(const Crop& crop) {
  const int years = std::max(1, crop.productive_years);
  const Weeks whole(kWeeksOfYear * years);
  return {true, Weeks(kWeeksOfYear), whole, whole};
}

/// By the days of the catalogue where the climate lets no start there ripen.
Run food_run(const Crop& crop, const SiteClimate& site, Week start) {
  const auto ripens = climate::weeks_to_harvest(crop, site, start);
  const double days = (crop.days_min + crop.days_max) / 2.0;
  const Weeks by_days(std::max(1, static_cast<int>(std::ceil(days / 7.0))));
  const Week first = start + ripens.value_or(by_days);
  const int picked = (crop.harvest_weeks_min + crop.harvest_weeks_max + 1) / 2;
  Week past = first + Weeks(std::max(1, picked));
  if (const auto last = climate::harvest_deadline(crop, site, first)) {
    past = std::clamp(*last + Weeks(1), first + Weeks(1), past);
  }
  const Week soon = std::min(past, first + Weeks(std::max(1, crop.harvest_weeks_min)));
  return {ripens.has_value(), first - start, past - start, soon - start};
}

/// Weeks of a number begin up to some days apart in two years: the ends of each run in `weeks` of
/// which the year's own week lies further out than the one that was judged are left out.
std::vector<Week> without_doubtful_ends(const std::vector<Week>& weeks) {
  std::vector<Week> sure;
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    const bool first = i == 0 || weeks[i] - weeks[i - 1] != Weeks(1);
    const bool last = i + 1 == weeks.size() || weeks[i + 1] - weeks[i] != Weeks(1);
    const int day = calendar::monday(weeks[i]).day_of_year();
    const int judged = calendar::monday(week_of_year(calendar::iso(weeks[i]).number)).day_of_year();
    const bool doubtful = (first && day < judged) || (last && day > judged);
    if (!doubtful) sure.push_back(weeks[i]);
  }
  return sure.empty() ? weeks : sure;
}

}  // namespace

StandYears::StandYears(const catalogue::ClimateNormals& normals,
                       const catalogue::SiteCoefficients& coefficients)
    : site_(normals, garden::Shelter::Open, weather_weeks(), coefficients) {}

const Run& StandYears::run(CropId id, const Crop& crop, Week start) {
  const int number = calendar::iso(start).number;
  const auto known = runs_.find({id, number});
  if (known != runs_.end()) return known->second;
  site_.prepare(crop.base_c, crop.cap_c);
  const Week week = week_of_year(number);
  Run found = crop.is_cover()    ? cover_run(crop, site_, week)
              : crop.perennial() ? perennial_run(crop)
                                 : food_run(crop, site_, week);
  found.may_start = found.may_start && climate::judge_start(crop, site_, week).open();
  return runs_[{id, number}] = found;
}

bool StandYears::dies_of_frost(const Crop& crop, WeekSpan weeks) const {
  const Week start = week_of_year(calendar::iso(weeks.first).number);
  const Week past = std::min(start + weeks.length(), weather_weeks().past);
  return climate::killed_by_frost(crop, site_, {start, past}).has_value();
}

const std::vector<Week>& StandYears::starts(CropId id, const Crop& crop, int year) {
  const auto known = starts_.find({id, year});
  if (known != starts_.end()) return known->second;
  std::vector<Week> weeks;
  const Week past = site_.season_start(year + 1);
  for (Week week = site_.season_start(year - 1); week < past; ++week) {
    const Run& stand = run(id, crop, week);
    const bool fits = stand.may_start && site_.season_of({week, week + stand.to_end}) == year;
    if (fits) weeks.push_back(week);
  }
  return starts_[{id, year}] = std::move(weeks);
}

std::vector<Week> StandYears::sure_starts(CropId id, const Crop& crop, int year) {
  return without_doubtful_ends(starts(id, crop, year));
}

Week StandYears::middle_start(CropId id, const Crop& crop, int year) {
  const std::vector<Week>& weeks = starts(id, crop, year);
  if (weeks.empty()) return site_.season_start(year) + Weeks(kGrowingWeek);
  std::size_t best_from = 0;
  std::size_t best_count = 0;
  std::size_t from = 0;
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    if (i > 0 && weeks[i] - weeks[i - 1] != Weeks(1)) from = i;
    if (i + 1 - from <= best_count) continue;
    best_from = from;
    best_count = i + 1 - from;
  }
  return weeks[best_from + (best_count - 1) / 2];
}

}  // namespace aftercrop::load
