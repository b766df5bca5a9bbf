// What else could stand there: every wanted crop and every cover, tried in the free weeks.
#include <algorithm>
#include <cmath>
#include <set>

#include "aftercrop/climate/window.h"
#include "explain/place.h"

namespace aftercrop::explain {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Ending;
using garden::Planting;

constexpr int kMostStarts = 6;     // starts tried a crop, evenly over the room
constexpr int kLongestCover = 44;  // weeks

void set_harvest(Planting& planting, Week first, int weeks) {
  planting.harvest =
      calendar::DateSpan{calendar::monday(first), calendar::monday(first + Weeks(weeks))};
  planting.to = planting.harvest->past;
}

std::optional<Planting> food_from(const Place& place, catalogue::CropId id, Week start) {
  const catalogue::Crop& crop = place.catalogue().crop(id);
  Planting planting;
  planting.bed = {};
  planting.crop = id;
  planting.from = calendar::monday(start);
  planting.ending = crop.root_harvest() ? Ending::HarvestedPulled : Ending::HarvestedCut;
  const auto growing = climate::weeks_to_harvest(crop, place.site(), start);
  if (!growing) return {};
  const Week first = start + *growing;
  const auto deadline = climate::harvest_deadline(crop, place.site(), first);
  int longest = (place.room().past - first).count();
  if (deadline) longest = std::min(longest, (*deadline + Weeks(1) - first).count());
  const int weeks = std::min(longest, std::max(1, crop.harvest_weeks_max));
  if (weeks < std::max(1, crop.harvest_weeks_min)) return {};
  set_harvest(planting, first, weeks);
  const int plug_weeks = static_cast<int>(std::lround(crop.plug_weeks.typical));
  if (crop.start == catalogue::Start::Transplant && plug_weeks > 0) {
    planting.raised = planting.from.plus_days(-7 * plug_weeks);
  }
  return planting;
}

/// The cover to the end of the room, or to frost, flower or seed if they come first.
std::optional<Planting> cover_from(const Place& place, catalogue::CropId id, Week start) {
  const catalogue::Crop& crop = place.catalogue().crop(id);
  const auto& endings = crop.cover->endings;
  const auto may = [&](Ending ending) {
    return std::find(endings.begin(), endings.end(), ending) != endings.end();
  };
  Planting planting;
  planting.crop = id;
  planting.from = calendar::monday(start);
  const Week limit = std::min(place.room().past, start + Weeks(kLongestCover));
  const auto killed = climate::killed_by_frost(crop, place.site(), {start, limit});
  if (killed && may(Ending::Winterkilled)) {
    planting.ending = Ending::Winterkilled;
    planting.to = calendar::monday(*killed + Weeks(1));
    return planting;
  }
  const bool cuts = may(Ending::CutRootsLeft);
  const auto likely_dead = climate::harvest_deadline(crop, place.site(), start);
  planting.ending = cuts ? Ending::CutRootsLeft : Ending::Incorporated;
  const int rest = place.next() != nullptr ? 1 : 0;
  for (Week past = limit - Weeks(rest); past > start + Weeks(2); past = past - Weeks(1)) {
    if (killed && past > *killed) continue;
    if (likely_dead && past > *likely_dead + Weeks(1)) continue;
    const auto progress = climate::cover_progress(crop, place.site(), {start, past});
    if (progress.stand < 1.0) break;
    const auto& growth = place.site().coefficients().covers;
    const bool again = cuts && crop.cover->regrowth == catalogue::Regrowth::High &&
                       progress.flower < growth.dies_when_cut;
    if (progress.flower > growth.seed_progress || again) continue;
    planting.to = calendar::monday(past);
    return planting;
  }
  return {};
}

std::vector<Week> starts_in(const Place& place, const catalogue::Crop& crop) {
  std::vector<Week> open;
  const WeekSpan room = place.room();
  const Week past = std::min(room.past, place.garden().seasons.past);
  for (Week week = room.first; week < past; ++week) {
    if (crop.perennial() || climate::judge_start(crop, place.site(), week).open()) {
      open.push_back(week);
    }
  }
  if (static_cast<int>(open.size()) <= kMostStarts) return open;
  std::vector<Week> some;
  for (int i = 0; i < kMostStarts; ++i) {
    some.push_back(open[open.size() * static_cast<std::size_t>(i) / kMostStarts]);
  }
  return some;
}

Option tried(const Place& place, const Planting& planting) {
  Option option;
  option.planting = planting;
  const Place::Trial trial = place.with(&option.planting);
  option.value_change = trial.value.total() - place.value().total();
  option.nitrogen_change_g = trial.bought_g - place.bought_now_g();
  option.findings = place.new_findings(trial);
  option.allowed =
      std::none_of(option.findings.begin(), option.findings.end(),
                   [](const auto& one) { return one.severity == diagnostic::Severity::Error; });
  return option;
}

bool better(const Option& a, const Option& b) {
  if (a.allowed != b.allowed) return a.allowed;
  if (std::abs(a.value_change - b.value_change) > 1e-9) return a.value_change > b.value_change;
  return a.planting.from < b.planting.from;
}

}  // namespace

std::optional<Option> best_option(const Place& place, catalogue::CropId id) {
  const catalogue::Crop& crop = place.catalogue().crop(id);
  if (crop.perennial()) return {};
  std::optional<Option> best;
  for (const Week start : starts_in(place, crop)) {
    auto planting = crop.is_cover() ? cover_from(place, id, start) : food_from(place, id, start);
    if (!planting || garden::weeks_of(*planting).past > place.room().past) continue;
    planting->bed = place.bed_id();
    Option option = tried(place, *planting);
    if (!best || better(option, *best)) best = std::move(option);
  }
  return best;
}

std::vector<Option> options(const Place& place) {
  std::set<catalogue::CropId> crops;
  for (const garden::Want& want : place.garden().wants) crops.insert(want.crop);
  for (std::size_t i = 0; i < place.catalogue().crops.size(); ++i) {
    if (place.catalogue().crops[i].is_cover()) crops.insert(catalogue::CropId(i));
  }
  std::vector<Option> found;
  for (const catalogue::CropId crop : crops) {
    if (place.stands() != nullptr && place.stands()->crop == crop) continue;
    auto option = best_option(place, crop);
    if (option && option->allowed) found.push_back(std::move(*option));
  }
  std::stable_sort(found.begin(), found.end(), better);
  return found;
}

}  // namespace aftercrop::explain
