// immobilisation: straw-like residue was dug in just before a crop that needs nitrogen.
// Bad: cabbage two weeks after rye at heading was dug in. Good: beans there.
// Waits by C:N of the residue are common practice; carbon is taken as 42 % of dry matter.
#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {"Trinsoutrot et al. 2000, SSSAJ 64:918 (published)",
                                            "waits: common practice"};
constexpr double kCarbonPct = 42.0;

int wait_weeks(double carbon_to_nitrogen) {
  if (carbon_to_nitrogen < 20.0) return 0;
  if (carbon_to_nitrogen < 30.0) return 2;
  return carbon_to_nitrogen <= 40.0 ? 4 : 6;
}

void judge(const Occasion& occasion, Breaches& out) {
  const catalogue::Crop& crop = occasion.crop();
  const ledger::PastStand& past = occasion.before.recent[0];
  const bool hungry = !crop.is_cover() && !crop.legume && crop.feeder != catalogue::Feeder::Light;
  if (!hungry || !past.crop.known() || past.ending != catalogue::Ending::Incorporated) return;
  if (past.n_pct <= 0.0) return;
  const double ratio = kCarbonPct / past.n_pct;
  const int wait = wait_weeks(ratio);
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
