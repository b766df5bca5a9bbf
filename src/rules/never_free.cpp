// never-free: the stand before cannot be cleared in the way it is booked before the next begins.
// Bad: vetch cut before it flowers, beans in its place next week: it grows again. Good: cut at
// flower. Bad: winterkilled rye: it lives.
#include <fmt/format.h>

#include "aftercrop/climate/window.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {"regrowth and winter kill: sources of the cover's row"};

enum Detail { kGrowsAgain, kLives };

void judge(const Occasion& occasion, Breaches& out) {
  const ledger::PastStand& past = occasion.before.recent[0];
  if (!past.crop.known()) return;
  const catalogue::Crop& crop = occasion.catalogue().crop(past.crop);
  const bool cut =
      past.ending == catalogue::Ending::CutRootsLeft || past.ending == catalogue::Ending::Mown;
  if (!crop.is_cover() || !cut || crop.cover->regrowth != catalogue::Regrowth::High) return;
  const int since = (occasion.before.week - past.weeks.past).count();
  const catalogue::Coefficients& k = occasion.catalogue().coefficients;
  if (past.flower >= k.site.covers.dies_when_cut || since >= k.rules.tarp_weeks) return;
  Breach breach;
  breach.rule = garden::RuleId::NeverFree;
  breach.computed = since;
  breach.limit = k.rules.tarp_weeks;
  breach.unit = "weeks";
  breach.other = past.crop;
  breach.other_week = past.weeks.past;
  breach.detail = kGrowsAgain;
  out.push_back(breach);
}

void look_at_stand(const Occasion& occasion, Breaches& out) {
  const ledger::Stand& stand = occasion.stand;
  if (stand.spec.ending != catalogue::Ending::Winterkilled) return;
  const climate::SiteClimate& site = occasion.ledger.site();
  if (climate::killed_by_frost(occasion.crop(), site, stand.spec.weeks)) return;
  Breach breach;
  breach.rule = garden::RuleId::NeverFree;
  breach.computed = breach.limit = site.coefficients().covers.surely_dead;
  breach.unit = "chance of a killing frost";
  breach.detail = kLives;
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  if (breach.detail == kLives) {
    words.message =
        fmt::format("frost does not surely kill {} in these weeks", occasion.crop().name);
    words.help = "end it by cutting or digging in, or take a cover that dies sooner";
    return words;
  }
  const std::string& before = occasion.catalogue().crop(breach.other).name;
  words.message = fmt::format("{} was cut before flower {} week{} ago and grows again", before,
                              static_cast<int>(breach.computed), breach.computed == 1 ? "" : "s");
  words.help = "cut it at full flower, cover it for 3 weeks, or dig it in";
  words.related = fmt::format("{} was cut here", before);
  return words;
}

}  // namespace

Rule never_free() {
  return {garden::RuleId::NeverFree, judge, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
