#include "load/rotation_dates.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <optional>

namespace aftercrop::load {
namespace {

using calendar::Week;
using calendar::Weeks;
using catalogue::Crop;

const Week kNever(std::numeric_limits<int>::max() / 2);
const Week kAlways(-kNever.serial());

// A cover that leads to nothing stands so many weeks past the coldest one: our choice.
constexpr Weeks kSpring(16);

const Crop& crop_of(const RotationItem& item, const std::vector<Crop>& crops) {
  return crops[item.crop.place()];
}

/// The latest start of each item that leaves room for all after it; for its shortest harvest where
/// none has room for the usual one, its first where none has any; kNever where nothing binds.
std::vector<Week> latest_starts(const std::vector<RotationItem>& items,
                                const std::vector<Crop>& crops, StandYears& years) {
  std::vector<Week> latest(items.size(), kNever);
  Week bound = kNever;
  for (std::size_t i = items.size(); i-- > 0;) {
    if (items[i].leads) continue;
    const Crop& crop = crop_of(items[i], crops);
    const std::vector<Week> starts = years.sure_starts(items[i].crop, crop, items[i].year);
    if (starts.empty()) continue;
    const auto last_with = [&](Weeks Run::*end) {
      return std::find_if(starts.rbegin(), starts.rend(), [&](Week week) {
        return week + years.run(items[i].crop, crop, week).*end <= bound;
      });
    };
    auto last = last_with(&Run::to_end);
    if (last == starts.rend()) last = last_with(&Run::to_soon_end);
    latest[i] = last == starts.rend() ? starts.front() : *last;
    bound = latest[i];
  }
  return latest;
}

/// The start nearest to the middle of the window in [earliest, latest], if there is one.
std::optional<Week> start_between(const RotationItem& item, const Crop& crop, Week earliest,
                                  Week latest, StandYears& years) {
  const Week middle = years.middle_start(item.crop, crop, item.year);
  std::optional<Week> best;
  int least = std::numeric_limits<int>::max();
  for (const Week week : years.sure_starts(item.crop, crop, item.year)) {
    const int away = std::abs((week - middle).count());
    if (week < earliest || week > latest || away >= least) continue;
    least = away;
    best = week;
  }
  return best;
}

/// What cannot be fitted starts as near as it can to the day on which the bed is free, so that the
/// row keeps its order and the overlap is told as small as it is.
Week overlapping_start(const RotationItem& item, const Crop& crop, Week free, StandYears& years) {
  Week best = years.middle_start(item.crop, crop, item.year);
  int least = std::numeric_limits<int>::max();
  for (const Week week : years.sure_starts(item.crop, crop, item.year)) {
    const int away = std::abs((week - free).count());
    if (away >= least) continue;
    least = away;
    best = week;
  }
  return best;
}

/// Places all but the covers that lead to a crop.
void place_food(const std::vector<RotationItem>& items, const std::vector<Crop>& crops,
                StandYears& years, std::vector<RotationDates>& dates) {
  const std::vector<Week> latest = latest_starts(items, crops, years);
  RotationDates* before = nullptr;
  Week soon_free = kAlways;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].leads) continue;
    const Crop& crop = crop_of(items[i], crops);
    const Week free = before != nullptr ? before->to : kAlways;
    auto start = start_between(items[i], crop, free, latest[i], years);
    if (!start) start = start_between(items[i], crop, soon_free, latest[i], years);
    if (!start) start = overlapping_start(items[i], crop, soon_free, years);
    if (before != nullptr) before->to = std::clamp(*start, soon_free, free);
    const Run& run = years.run(items[i].crop, crop, *start);
    dates[i] = {*start, *start + run.to_end};
    soon_free = *start + run.to_soon_end;
    before = &dates[i];
  }
}

/// A cover before `next`: in the last weeks before winter in which it may be sown, else in the
/// weeks after; as early as the bed is free where neither is open.
Week cover_start(const RotationItem& item, const Crop& crop, Week free, Week next,
                 StandYears& years) {
  const Week coldest = years.season_start(item.year);
  const Week first = std::max(free, years.season_start(item.year - 1));
  std::vector<Week> before_winter;
  std::vector<Week> after;
  for (Week week = first; week < next; ++week) {
    const bool open = years.run(item.crop, crop, week).may_start &&
                      week + Weeks(crop.cover->weeks_to_stand) <= next;
    std::vector<Week>& list = week < coldest ? before_winter : after;
    if (!open) continue;
    if (!list.empty() && week - list.back() != Weeks(1)) list.clear();
    list.push_back(week);
  }
  const std::vector<Week>& chosen = before_winter.empty() ? after : before_winter;
  if (chosen.empty()) return std::min(std::max(free, next - Weeks(1)), next - Weeks(1));
  return chosen[(chosen.size() - 1) / 2];
}

}  // namespace

std::vector<RotationDates> place_rotation(const std::vector<RotationItem>& items,
                                          const std::vector<Crop>& crops, StandYears& years) {
  std::vector<RotationDates> dates(items.size());
  place_food(items, crops, years, dates);
  Week free = kAlways;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].leads) {
      std::size_t next = i + 1;
      while (next < items.size() && items[next].leads) ++next;
      Week bound = years.season_start(items[i].year) + kSpring;
      if (next < items.size()) {
        const bool room = dates[next].from - items[i].rest > free + Weeks(1);
        bound = room && next == i + 1 ? dates[next].from - items[i].rest : dates[next].from;
      }
      const Crop& crop = crop_of(items[i], crops);
      dates[i] = {cover_start(items[i], crop, free, bound, years), bound};
    } else if (crop_of(items[i], crops).is_cover() && i + 1 < items.size() && !items[i + 1].leads &&
               dates[i + 1].from > dates[i].from) {
      dates[i].to = std::min(dates[i].to, dates[i + 1].from);
    }
    free = dates[i].to;
  }
  return dates;
}

}  // namespace aftercrop::load
