// frost-before-harvest: frost is likely to end the crop before it has given its harvest.
// Bad: beans sown in August where frost comes in September. Good: sown eight weeks earlier.
// Source: killing temperatures after Dawling and Bezilla 2012, 2016; frost dates as the climate
// says.
#include <algorithm>

#include <fmt/format.h>

#include "aftercrop/climate/window.h"
#include "aftercrop/garden/measure_text.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Dawling and Bezilla 2012, 2016, winter hardiness of vegetables (published)"};

void look_at_stand(const Occasion& occasion, Breaches& out) {
  const ledger::StandSpec& spec = occasion.stand.spec;
  if (occasion.stand.cover || occasion.crop().perennial()) return;
  if (spec.harvest.first >= spec.harvest.past) return;
  const auto deadline =
      climate::harvest_deadline(occasion.crop(), occasion.ledger.site(), spec.harvest.first);
  const calendar::Week last = spec.harvest.past - calendar::Weeks(1);
  if (!deadline || last <= *deadline) return;
  Breach breach;
  breach.rule = garden::RuleId::FrostBeforeHarvest;
  breach.computed = (last - *deadline).count();
  breach.limit = 0.0;
  breach.unit = "weeks past";
  breach.other_week = *deadline;
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const catalogue::Crop& crop = occasion.crop();
  const climate::FrostModel& frost = occasion.ledger.site().frost();
  const calendar::Date last_day = calendar::monday(occasion.stand.spec.harvest.past).plus_days(-1);
  Words words;
  words.message =
      fmt::format("{} is picked {:.0f} week{} past the frost that ends it ({}, {:.0f} % by {})",
                  crop.name, breach.computed, breach.computed == 1 ? "" : "s",
                  garden::temperature_text(crop.kill_c, occasion.ledger.garden().units),
                  100.0 * frost.chance_before(last_day, crop.kill_c), last_day.text());
  words.help = fmt::format("be done by {}, start earlier, or cover it",
                           calendar::monday(breach.other_week).plus_days(6).text());
  return words;
}

}  // namespace

Rule frost_before_harvest() {
  return {
      garden::RuleId::FrostBeforeHarvest, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
