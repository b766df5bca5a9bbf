#include "sequencer/reasons.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace aftercrop::sequencer {
namespace {

/// The rule that refuses every stand of the crop in a bed left idle until then; empty = none.
std::string refused_by(const BedClass& beds, const WantRow& want, const Objective& objective,
                       bool* any_stand) {
  const catalogue::CropId crop = beds.ledger->garden().wants[want.want].crop;
  ledger::BedState state = beds.start;
  std::map<std::string, int> refusals;
  rules::Breaches breaches;
  for (const graph::Arc& arc : beds.graph->arcs()) {
    if (arc.stand < 0 || arc.fixed) continue;
    const Choice& choice = beds.choices[static_cast<std::size_t>(arc.stand)];
    const bool serves =
        choice.stand.spec.crop == crop &&
        std::any_of(choice.supply.begin(), choice.supply.end(), [&](const auto& row) {
          return std::count(want.supplies.begin(), want.supplies.end(), row.first) > 0;
        });
    if (!serves) continue;
    *any_stand = true;
    (void)beds.ledger->idle(state, arc.from);
    breaches.clear();
    rules::judge_before({*beds.ledger, state, choice.stand, beds.clubroot_seen}, breaches);
    Value ignored;
    if (objective.charge_breaches(breaches, 0.0, ignored)) return {};
    for (const rules::Breach& breach : breaches) {
      const auto setting = rules::setting_of(breach, beds.ledger->garden().policy);
      if (setting != garden::Setting::Require) continue;
      ++refusals[std::string(garden::card(breach.rule).name)];
    }
  }
  std::string most;
  int count = 0;
  for (const auto& [rule, times] : refusals) {
    if (times <= count) continue;
    most = rule;
    count = times;
  }
  return most;
}

}  // namespace

std::string reason_for(const WantRow& want, const std::vector<BedClass>& classes,
                       const Objective& objective) {
  if (classes.empty()) return "the garden has no beds";
  const garden::Garden& garden = classes.front().ledger->garden();
  const catalogue::Crop& crop =
      classes.front().ledger->catalogue().crop(garden.wants[want.want].crop);
  if (crop.perennial()) return "a perennial: give it a bed with keep";
  bool any_stand = false;
  std::map<std::string, std::size_t> kept_out;
  for (const BedClass& beds : classes) {
    const std::string rule = refused_by(beds, want, objective, &any_stand);
    if (!rule.empty()) kept_out[rule] += beds.beds.size();
  }
  if (!any_stand) {
    const bool small = std::all_of(classes.begin(), classes.end(), [&](const BedClass& beds) {
      return beds.area_m2 < crop.smallest_stand_m2;
    });
    if (small)
      return fmt::format("every bed is smaller than the {:.1f} m2 it needs",
                         crop.smallest_stand_m2);
    return "no week of these seasons lets it be sown here and picked in the window";
  }
  std::string words;
  for (const auto& [rule, beds] : kept_out) {
    words += fmt::format("{}{} keeps it out of {} of {} beds", words.empty() ? "" : "; ", rule,
                         beds, garden.beds.size());
  }
  return words.empty() ? "the land and weeks it needs serve wants that are worth more" : words;
}

}  // namespace aftercrop::sequencer
