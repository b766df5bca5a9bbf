// legume-before-heavy-feeder: a heavy feeder that does not follow, as one of the last two stands
// within a year, a legume that was cut at its useful stand with the roots left.
// Bad: sweet corn after a bare winter. Good: sweet corn after faba cut in May, roots left.
// Roots to eat are exempt: fresh residue forks them. Silent while the bed's past is unknown.
#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {"Sullivan and Andrews 2012, PNW 636 (published)",
                                            "Peoples et al. 2021, Plant Soil (published)"};
constexpr int kDugIn = 1;

enum class Credit { None, DugIn, Full };

Credit credit(const ledger::PastStand& past, const catalogue::Catalogue& rows) {
  if (!past.crop.known() || !rows.crop(past.crop).legume) return Credit::None;
  using catalogue::Ending;
  if (!rows.crop(past.crop).is_cover()) {
    return past.ending == Ending::HarvestedCut ? Credit::Full : Credit::None;
  }
  if (!past.useful) return Credit::None;
  if (past.ending == Ending::CutRootsLeft || past.ending == Ending::Winterkilled) {
    return Credit::Full;
  }
  return past.ending == Ending::Incorporated ? Credit::DugIn : Credit::None;
}

void judge(const Occasion& occasion, Breaches& out) {
  const catalogue::Crop& crop = occasion.crop();
  if (crop.feeder != catalogue::Feeder::Heavy || crop.edible_part == "root") return;
  const double within = occasion.catalogue().coefficients.rules.legume_within_weeks;
  const calendar::Week start = occasion.before.week;
  bool dug_in = false;
  for (const ledger::PastStand& past : occasion.before.recent) {
    if (!past.crop.known() || (start - past.weeks.past).count() > within) continue;
    const Credit got = credit(past, occasion.catalogue());
    if (got == Credit::Full) return;
    dug_in = dug_in || got == Credit::DugIn;
  }
  const bool past_known = (start - occasion.before.known_since).count() >= within ||
                          occasion.before.recent[1].crop.known();
  if (!past_known) return;
  Breach breach;
  breach.rule = garden::RuleId::LegumeBeforeHeavyFeeder;
  breach.level = dug_in ? 2 : 0;
  breach.limit = within;
  breach.unit = "weeks";
  breach.detail = dug_in ? kDugIn : 0;
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  if (breach.detail == kDugIn) {
    words.message = fmt::format("{} follows a legume that was dug in, not cut with its roots left",
                                occasion.crop().name);
    words.help = "dug in it works too, only faster and with more risk of leaching";
    return words;
  }
  words.message = fmt::format(
      "{}, a heavy feeder, without a legume cut and left rooted in the {:.0f} weeks before",
      occasion.crop().name, breach.limit);
  words.help = "grow a legume cover or peas and beans ahead of it, cut the tops, leave the roots";
  return words;
}

}  // namespace

Rule legume_before_heavy_feeder() {
  return {garden::RuleId::LegumeBeforeHeavyFeeder, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
