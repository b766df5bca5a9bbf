#include "wanted.h"

#include <algorithm>

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr double kUnwantedShare = 0.1;  // our choice, as the search has it

/// Minutes a square metre from sowing to clearing: 10, 20 or 40; covers 5. Common practice.
double minutes_per_m2(const catalogue::Crop& crop) {
  if (crop.is_cover()) return 5.0;
  switch (crop.work) {
    case catalogue::Work::Low:
      return 10.0;
    case catalogue::Work::Medium:
      return 20.0;
    case catalogue::Work::High:
      break;
  }
  return 40.0;
}

}  // namespace

Wanted::Wanted(const garden::Garden& garden, const catalogue::Catalogue& catalogue)
    : garden_(&garden) {
  for (std::size_t place = 0; place < garden.wants.size(); ++place) {
    const garden::Want& want = garden.wants[place];
    wants_.push_back({want.crop, want.window,
                      garden::area_needed_m2(want, catalogue.crop(want.crop)),
                      garden.costs.want_per_m2 * want.weight, place});
  }
  std::stable_sort(wants_.begin(), wants_.end(),
                   [](const Want& a, const Want& b) { return a.window.past < b.window.past; });
  for (std::size_t i = 0; i < wants_.size(); ++i) {
    for (Week week = wants_[i].window.first; week < wants_[i].window.past; ++week) {
      open_[{wants_[i].crop, week}].push_back(i);
    }
  }
  for (const garden::Planting& planting : garden.history) {
    const ledger::StandSpec spec = ledger::spec_of(planting);
    const bool failed = planting.ending == catalogue::Ending::Failed;
    if (failed || spec.weeks.first >= garden.seasons.first) continue;
    add_harvest(spec, garden.bed(planting.bed).area.value(), given_);
  }
}

const std::vector<std::size_t>& Wanted::open(catalogue::CropId crop, Week week) const {
  static const std::vector<std::size_t> kNone;
  const auto found = open_.find({crop, week});
  return found == open_.end() ? kNone : found->second;
}

void Wanted::add_harvest(const ledger::StandSpec& spec, double area_m2, Harvest& harvest) const {
  const int count = spec.harvest.length().count();
  for (Week week = spec.harvest.first; week < spec.harvest.past; ++week) {
    if (!open(spec.crop, week).empty()) harvest[{spec.crop, week}] += area_m2 / count;
  }
}

double Wanted::worth(Harvest harvest) const {
  double sum = 0.0;
  for (const Want& want : wants_) {
    double missing = want.amount_m2;
    for (Week week = want.window.first; week < want.window.past && missing > 0.0; ++week) {
      const auto here = harvest.find({want.crop, week});
      if (here == harvest.end()) continue;
      const double taken = std::min(missing, here->second);
      here->second -= taken;
      missing -= taken;
    }
    sum += (want.amount_m2 - missing) * want.worth_per_m2;
  }
  return sum;
}

double Wanted::stand_worth(catalogue::CropId crop, double area_m2) const {
  double best = 0.0;
  for (const Want& want : wants_) {
    if (want.crop == crop) best = std::max(best, want.worth_per_m2);
  }
  return area_m2 * (best > 0.0 ? best : kUnwantedShare * garden_->costs.want_per_m2);
}

std::map<Week, double> hours_of(const catalogue::Crop& crop, const ledger::StandSpec& spec,
                                double area_m2, WeekSpan seasons) {
  const double total = minutes_per_m2(crop) * area_m2 / 60.0;
  const bool picked = spec.harvest.first < spec.harvest.past;
  std::map<Week, double> hours;
  for (Week week = spec.weeks.first; week < spec.weeks.past; ++week) {
    double share = 0.2 / spec.weeks.length().count();
    if (week == spec.weeks.first) share += 0.3;
    if (week + Weeks(1) == spec.weeks.past) share += picked ? 0.1 : 0.5;
    if (spec.harvest.contains(week)) share += 0.4 / spec.harvest.length().count();
    if (seasons.contains(week)) hours[week] += share * total;
  }
  return hours;
}

double hands_in(const garden::Garden& garden, Week week) {
  double hours = garden.hands.hours_per_week;
  const calendar::Date day = calendar::monday(week);
  for (const garden::WorkException& exception : garden.hands.exceptions) {
    if (exception.span.first <= day && day < exception.span.past) hours = exception.hours;
  }
  return hours;
}

}  // namespace aftercrop::verifier
