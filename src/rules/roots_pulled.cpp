// roots-pulled: a legume pulled out takes much of its credit off the bed.
// Bad: beans pulled after the last picking. Good: cut at the soil, roots left.
// Source: McNeill and Unkovich 2024, Plant Soil: coarse roots hold 33 to 55 % of what is below.
#include <fmt/format.h>

#include "aftercrop/garden/measure_text.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {"McNeill and Unkovich 2024, Plant Soil (published)"};

void look_at_stand(const Occasion& occasion, Breaches& out) {
  const ledger::Stand& stand = occasion.stand;
  if (!stand.legume || stand.spec.ending != catalogue::Ending::HarvestedPulled) return;
  const double share = occasion.catalogue().coefficients.nitrogen.pulled_root_share;
  Breach breach;
  breach.rule = garden::RuleId::RootsPulled;
  breach.computed = share * stand.demand.below_ground;
  breach.unit = "kg N/ha";
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  words.message = fmt::format("{} pulled with its roots takes about {} of nitrogen off the bed",
                              occasion.crop().name,
                              garden::nitrogen_text(breach.computed, occasion.ledger.bed(),
                                                    occasion.ledger.garden().units));
  words.help = "cut it at the soil and leave the roots (ending: harvested-cut)";
  return words;
}

}  // namespace

Rule roots_pulled() {
  return {garden::RuleId::RootsPulled, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
