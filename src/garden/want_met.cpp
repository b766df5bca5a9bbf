#include <algorithm>
#include <map>

#include "aftercrop/garden/want_met.h"

namespace aftercrop::garden {
namespace {

using calendar::Week;

/// What one stand gives in one week, in square-metre shares of its whole harvest.
struct Gift {
  Week week;
  catalogue::CropId crop;
  double share_m2 = 0.0;
};

std::vector<Gift> gifts(const Garden& garden, const std::vector<Planting>& plantings) {
  std::vector<Gift> all;
  for (const Planting& planting : plantings) {
    if (planting.ending == catalogue::Ending::Failed) continue;
    const calendar::WeekSpan weeks = harvest_weeks_of(planting);
    const int count = weeks.length().count();
    if (count <= 0) continue;
    const double share = garden.bed(planting.bed).area.value() / count;
    for (Week week = weeks.first; week < weeks.past; ++week) {
      all.push_back({week, planting.crop, share});
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Gift& a, const Gift& b) { return a.week < b.week; });
  return all;
}

}  // namespace

std::vector<WantMet> wants_met(const Garden& garden, const catalogue::Catalogue& catalogue,
                               const std::vector<Planting>& plantings) {
  std::vector<WantMet> met(garden.wants.size());
  std::map<catalogue::CropId, std::vector<std::size_t>> by_crop;
  for (std::size_t i = 0; i < garden.wants.size(); ++i) {
    met[i].want = i;
    by_crop[garden.wants[i].crop].push_back(i);
  }
  for (auto& [crop, places] : by_crop) {
    std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
      return garden.wants[a].window.past < garden.wants[b].window.past;
    });
  }
  for (const Gift& gift : gifts(garden, plantings)) {
    double left = gift.share_m2;
    const auto places = by_crop.find(gift.crop);
    if (places == by_crop.end()) continue;
    for (const std::size_t i : places->second) {
      const Want& want = garden.wants[i];
      if (!want.window.contains(gift.week) || left <= 0.0) continue;
      const double per_m2 = yield_per_m2(catalogue.crop(want.crop), want.unit);
      if (per_m2 <= 0.0) continue;
      const double taken = std::min(left * per_m2, want.amount - met[i].met);
      met[i].met += taken;
      left -= taken / per_m2;
    }
  }
  return met;
}

std::vector<LineMet> lines_met(const Garden& garden, const std::vector<WantMet>& met) {
  std::map<int, LineMet> lines;
  for (const WantMet& one : met) {
    const Want& want = garden.wants[one.want];
    LineMet& line = lines[want.series];
    if (line.want == nullptr) line.want = &want;
    line.asked += want.amount;
    line.met += std::min(want.amount, one.met);
  }
  std::vector<LineMet> out;
  for (const auto& [series, line] : lines) out.push_back(line);
  return out;
}

double share_met(const Garden& garden, const std::vector<WantMet>& met) {
  double sum = 0.0;
  double weights = 0.0;
  for (const LineMet& line : lines_met(garden, met)) {
    weights += line.want->weight;
    sum += line.want->weight * line.share();
  }
  return weights > 0.0 ? sum / weights : 1.0;
}

}  // namespace aftercrop::garden
