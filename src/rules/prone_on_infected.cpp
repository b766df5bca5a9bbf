// prone-on-infected: a prone crop meets a load of its disease near or above the damage threshold.
// Bad: kale three years after clubroot was seen. Good: kale after eleven.
// Evidence counts: a disease only assumed to be everywhere is never a finding of one planting.
// Source of thresholds, half-lives and hosts: the pathogen's own row.
#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "aftercrop/disease/load.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "half-life, threshold and hosts: sources of the pathogen's row (aftercrop crops)"};

void judge(const Occasion& occasion, Breaches& out) {
  const double refuse_at = occasion.catalogue().coefficients.disease.refuse_at;
  for (std::size_t i = 0; i < occasion.before.loads.size(); ++i) {
    const ledger::StandLoad& crop = occasion.stand.loads[i];
    const ledger::Load& load = occasion.before.loads[i];
    const catalogue::PathogenId id = occasion.ledger.tracked()[i];
    const catalogue::Pathogen& pathogen = occasion.catalogue().pathogen(id);
    if (!crop.prone || (pathogen.background && !load.seen)) continue;
    const double met = ledger::met_cautious(occasion.before, occasion.stand, i);
    if (met < pathogen.advise_at) continue;
    Breach breach;
    breach.rule = garden::RuleId::ProneOnInfected;
    breach.level = met >= refuse_at && load.seen ? 0 : 1;
    breach.computed = met;
    breach.limit = breach.level == 0 ? refuse_at : pathogen.advise_at;
    breach.unit = "of the damage threshold";
    breach.pathogen = id;
    out.push_back(breach);
  }
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const catalogue::Pathogen& pathogen = occasion.catalogue().pathogen(breach.pathogen);
  const double half_life = pathogen.half_life_years.typical;
  const auto falls = [&](double limit) {
    return disease::years_to(breach.computed, limit, half_life);
  };
  Words words;
  words.message =
      fmt::format("{} on a bed with {} at {:.2f} of its damage threshold, {} from {:.2f}",
                  occasion.crop().name, pathogen.name, breach.computed,
                  breach.level == 0 ? "refused" : "advised against", breach.limit);
  const std::string now_lower =
      breach.computed >= 1.0 ? fmt::format("below 1 in {:.1f} and ", falls(1.0)) : std::string();
  words.help = fmt::format(
      "without hosts it falls {}below {:.2f} in {:.1f} years (half-life {:.1f}, published {:.1f} "
      "to {:.1f} years); take another bed or a resistant variety",
      now_lower, pathogen.advise_at, std::max(0.1, falls(pathogen.advise_at)), half_life,
      pathogen.half_life_years.low, pathogen.half_life_years.high);
  return words;
}

}  // namespace

Rule prone_on_infected() {
  return {garden::RuleId::ProneOnInfected, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
