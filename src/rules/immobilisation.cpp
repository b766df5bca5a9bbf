// immobilisation: straw-like residue was dug in just before a crop that needs nitrogen.
// Bad: cabbage two weeks after rye at heading was dug in. Good: beans there.
// Waits by C:N of the residue are common practice.
#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {"Trinsoutrot et al. 2000, SSSAJ 64:918 (published)",
                                            "waits: common practice"};

int wait_weeks(double carbon_to_nitrogen, const catalogue::RuleCoefficients& k) {
  if (carbon_to_nitrogen < k.straw_cn) return 0;
  if (carbon_to_nitrogen < k.strawy_cn) return static_cast<int>(k.straw_weeks);
  return static_cast<int>(carbon_to_nitrogen <= k.woody_cn ? k.strawy_weeks : k.woody_weeks);
}

void judge(const Occasion& occasion, Breaches& out) {
  const catalogue::Crop& crop = occasion.crop();
  const ledger::PastStand& past = occasion.before.recent[0];
  const bool hungry = !crop.is_cover() && !crop.legume && crop.feeder != catalogue::Feeder::Light;
  if (!hungry || !past.crop.known() || past.ending != catalogue::Ending::Incorporated) return;
  if (past.n_pct <= 0.0) return;
  const catalogue::RuleCoefficients& k = occasion.catalogue().coefficients.rules;
  const double ratio = k.carbon_pct / past.n_pct;
  const int wait = wait_weeks(ratio, k);
  const int since = (occasion.before.week - past.weeks.past).count();
  if (since >= wait) return;
  Breach breach;
  breach.rule = garden::RuleId::Immobilisation;
  breach.computed = since;
  breach.limit = wait;
  breach.unit = "weeks";
  breach.other = past.crop;
  breach.other_week = past.weeks.past;
  breach.detail = static_cast<int>(ratio);
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  words.message = fmt::format(
      "{} {} week{} after straw-like {} (C:N {}) was dug in, {} asked for", occasion.crop().name,
      static_cast<int>(breach.computed), breach.computed == 1 ? "" : "s",
      occasion.catalogue().crop(breach.other).name, breach.detail, static_cast<int>(breach.limit));
  words.help = "wait, end the cover younger, or let a legume follow it";
  words.related = fmt::format("{} ended here", occasion.catalogue().crop(breach.other).name);
  return words;
}

}  // namespace

Rule immobilisation() {
  return {garden::RuleId::Immobilisation, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
