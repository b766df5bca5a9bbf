#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/bed_ledger.h"
#include "aftercrop/rules/rule.h"

// The objective once more, added up the long way from harvests, postings and breaches: what the
// sequencer's own sums are held against.
namespace aftercrop::support {

/// Square metres' worth of harvest by crop and week.
using Harvests = std::map<std::pair<catalogue::CropId, calendar::Week>, double>;

inline void add_harvest(Harvests& harvests, const ledger::StandSpec& spec, double area_m2) {
  const int weeks = spec.harvest.length().count();
  for (calendar::Week week = spec.harvest.first; week < spec.harvest.past; ++week) {
    harvests[{spec.crop, week}] += area_m2 / weeks;
  }
}

/// Week by week, what is picked goes to the open want of that crop whose window ends first.
/// `shared`: false counts a harvest once for every want that it would fit, which is too much.
inline double worth_of(const Harvests& harvests, const garden::Garden& garden,
                       const catalogue::Catalogue& catalogue, bool shared = true) {
  std::vector<double> open;
  std::vector<std::size_t> order;
  for (const garden::Want& want : garden.wants) {
    order.push_back(open.size());
    open.push_back(garden::area_needed_m2(want, catalogue.crop(want.crop)));
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return garden.wants[a].window.past < garden.wants[b].window.past;
  });
  double worth = 0.0;
  for (const auto& [what, m2] : harvests) {
    double left = m2;
    for (const std::size_t i : order) {
      const garden::Want& want = garden.wants[i];
      if (want.crop != what.first || !want.window.contains(what.second)) continue;
      const double taken = std::min(open[i], left);
      open[i] -= taken;
      if (shared) left -= taken;
      worth += taken * want.weight * garden.costs.want_per_m2;
    }
  }
  return worth;
}

/// What a bed costs, by why.
struct PlainCosts {
  double nitrogen = 0.0;
  double leached = 0.0;
  double bare = 0.0;
  double disease = 0.0;
  double break_warnings = 0.0;
  double load_warnings = 0.0;
  double other_warnings = 0.0;
  [[nodiscard]] double total() const {
    return nitrogen + leached + bare + disease + break_warnings + load_warnings + other_warnings;
  }
};

/// Rules that a lifted break or a lifted load would silence.
inline bool about_breaks(garden::RuleId rule) {
  return rule == garden::RuleId::FamilyBreak || rule == garden::RuleId::HostReturn;
}
inline bool about_loads(garden::RuleId rule) {
  return rule == garden::RuleId::ProneOnInfected || rule == garden::RuleId::BiofumigantBeforeProne;
}

/// What a stand's shares are taken of: its land at the best weight of its wants; unwanted stands
/// count for a tenth of a plain want.
inline double stand_worth(const garden::Garden& garden, catalogue::CropId crop, double area_m2) {
  double weight = 0.0;
  for (const garden::Want& want : garden.wants) {
    if (want.crop == crop) weight = std::max(weight, want.weight);
  }
  return area_m2 * garden.costs.want_per_m2 * (weight > 0.0 ? weight : 0.1);
}

/// Risk of the diseases that were seen in the bed.
inline double disease_cost(const garden::Garden& garden, const ledger::BedState& before,
                           const ledger::Stand& stand, double worth) {
  double cost = 0.0;
  for (std::size_t i = 0; i < before.loads.size(); ++i) {
    if (!stand.loads[i].prone || !before.loads[i].seen) continue;
    const double met = ledger::met_central(before, stand, i);
    if (met <= 0.25) continue;  // a quarter of the threshold: no risk is counted below
    cost += garden.costs.disease_share * worth * std::min(1.0, (2.0 + std::log2(met)) / 2.0);
  }
  return cost;
}

}  // namespace aftercrop::support
