// manure-before-harvest: raw manure was spread too few days before a harvest that is eaten.
// Bad: fresh manure in May, lettuce in July. Good: fresh manure in autumn, lettuce in July.
// Source: US organic rule, 7 CFR 205.203(c)(1): 120 days where the edible part touches soil or is
// splashed by it, 90 days where not. Composted manure is exempt.
#include <algorithm>

#include <fmt/format.h>

#include "aftercrop/nitrogen/manure.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "US organic rule, 7 CFR 205.203(c)(1) (published)",
    "a caution: local codes may ask for more; composted manure is safer"};

void look_at_stand(const Occasion& occasion, Breaches& out) {
  const catalogue::Crop& crop = occasion.crop();
  const ledger::StandSpec& spec = occasion.stand.spec;
  const int asked = nitrogen::manure_days(crop, occasion.catalogue().coefficients.nitrogen);
  const bool eaten = !crop.is_cover() && crop.kind != "flower";
  if (!eaten || spec.harvest.first >= spec.harvest.past) return;
  const calendar::Date picked = calendar::monday(spec.harvest.first);
  const calendar::Date done = calendar::monday(spec.harvest.past);
  for (const garden::Application& one : occasion.ledger.garden().applications) {
    if (&occasion.ledger.garden().bed(one.bed) != &occasion.ledger.bed()) continue;
    if (!occasion.catalogue().amendment(one.material).raw_manure || one.date >= done) continue;
    const int days = std::max(0, calendar::days_between(one.date, picked));
    if (days >= asked) continue;
    Breach breach;
    breach.rule = garden::RuleId::ManureBeforeHarvest;
    breach.computed = days;
    breach.limit = asked;
    breach.unit = "days";
    breach.detail = one.date.serial();
    out.push_back(breach);
    return;
  }
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const catalogue::Crop& crop = occasion.crop();
  const calendar::Date spread = calendar::Date::from_serial(breach.detail);
  Words words;
  words.message =
      fmt::format("{} is picked {:.0f} day{} after raw manure of {}, {:.0f} asked for", crop.name,
                  breach.computed, breach.computed == 1.0 ? "" : "s", spread.text(), breach.limit);
  words.help = fmt::format(
      "pick nothing before {}, spread the manure in the autumn before, or take composted manure",
      spread.plus_days(static_cast<int>(breach.limit)).text());
  return words;
}

}  // namespace

Rule manure_before_harvest() {
  return {
      garden::RuleId::ManureBeforeHarvest, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
