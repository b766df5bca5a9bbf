// biofumigant-unready: a biofumigant that had work to do in this bed was ended so that little came
// of it: wrong stage, too little growth, left on top, or soil too cold.
// Bad: mustard dug in with seed pods. Good: mustard chopped in at first flower, soil above 10 C.
#include <fmt/format.h>

#include "aftercrop/garden/measure_text.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Cornell, Biofumigation for managing Phytophthora blight (published)"};

void judge(const Occasion& occasion, Breaches& out) {
  const ledger::Stand& stand = occasion.stand;
  if (!stand.fumigant || stand.spec.ending != catalogue::Ending::Incorporated) return;
  const disease::Unready first = stand.fumigation.first;
  if (first == disease::Unready::None || first == disease::Unready::Execution) return;
  for (std::size_t i = 0; i < stand.loads.size(); ++i) {
    const bool work = stand.loads[i].kept_central < 1.0 && occasion.before.loads[i].seen;
    if (!work || stand.loads[i].effective) continue;
    Breach breach;
    breach.rule = garden::RuleId::BiofumigantUnready;
    breach.computed = stand.fumigation.q;
    breach.limit = occasion.catalogue().coefficients.disease.effective_quality;
    breach.unit = "quality of 1";
    breach.pathogen = occasion.ledger.tracked()[i];
    breach.detail = static_cast<int>(first);
    out.push_back(breach);
    return;
  }
}

std::string reason(int detail, const std::string& warm) {
  switch (static_cast<disease::Unready>(detail)) {
    case disease::Unready::Species:
      return "the species releases little";
    case disease::Unready::Stage:
      return "it is not between bud and early flower";
    case disease::Unready::Biomass:
      return "there is too little growth";
    case disease::Unready::NotIncorporated:
      return "it is not mixed into the soil at once";
    case disease::Unready::ColdSoil:
      return "the soil is below " + warm;
    case disease::Unready::None:
    case disease::Unready::Execution:
      break;
  }
  return "it is not done with care";
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const std::string warm = garden::temperature_text(
      occasion.catalogue().coefficients.disease.warm_soil_c, occasion.ledger.garden().units);
  Words words;
  words.message =
      fmt::format("{} ends with quality {:.2f} as a biofumigant, {:.2f} asked for: {}",
                  occasion.crop().name, breach.computed, breach.limit, reason(breach.detail, warm));
  words.help = fmt::format(
      "chop it finely at first flower in moist soil above {}, mix it in within 20 minutes", warm);
  return words;
}

}  // namespace

Rule biofumigant_unready() {
  return {garden::RuleId::BiofumigantUnready, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
