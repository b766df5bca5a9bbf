// biofumigant-before-prone: a prone crop on a bed with evidence of its disease, and neither a full
// break nor an effective biofumigant in the half year before.
// Bad: pepper in a wilted bed after a bare winter. Good: pepper after mustard chopped in at flower.
// A biofumigant never lifts a refusal by itself: its low published efficacy decides that.
#include <algorithm>

#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Morris, Fletcher and Veresoglou 2020, Plant Soil (published)",
    "Xiao et al. 1998, Phytopathology 88:1046 (published)"};
constexpr double kWeeksPerYear = 365.25 / 7.0;

bool can_be_treated(const catalogue::Pathogen& pathogen) {
  return std::any_of(pathogen.biofumigation.begin(), pathogen.biofumigation.end(),
                     [](const auto& row) { return row.efficacy.typical > 0.0; });
}

void judge(const Occasion& occasion, Breaches& out) {
  const catalogue::DiseaseCoefficients& k = occasion.catalogue().coefficients.disease;
  if (occasion.stand.cover) return;
  for (std::size_t i = 0; i < occasion.before.loads.size(); ++i) {
    const ledger::StandLoad& crop = occasion.stand.loads[i];
    const ledger::Load& load = occasion.before.loads[i];
    const catalogue::PathogenId id = occasion.ledger.tracked()[i];
    const catalogue::Pathogen& pathogen = occasion.catalogue().pathogen(id);
    if (!crop.prone || !load.seen || !can_be_treated(pathogen)) continue;
    const double met = ledger::met_central(occasion.before, occasion.stand, i);
    if (met < pathogen.advise_at) continue;
    const double rested = (occasion.before.week - load.hosted).count() / kWeeksPerYear;
    if (load.hosted != ledger::kNever && rested >= pathogen.break_years.typical) continue;
    const int since = (occasion.before.week - load.treated).count();
    if (since <= static_cast<int>(k.biofumigant_weeks)) continue;
    Breach breach;
    breach.rule = garden::RuleId::BiofumigantBeforeProne;
    breach.computed = met;
    breach.limit = pathogen.advise_at;
    breach.unit = "of the damage threshold";
    breach.pathogen = id;
    out.push_back(breach);
  }
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const catalogue::Pathogen& pathogen = occasion.catalogue().pathogen(breach.pathogen);
  std::string plants;
  for (const auto& row : pathogen.biofumigation) {
    if (row.efficacy.typical <= 0.0) continue;
    for (const catalogue::CropId id : row.plants) {
      plants += (plants.empty() ? "" : ", ") + occasion.catalogue().crop(id).name;
    }
  }
  Words words;
  words.message =
      fmt::format("{} where {} was seen, with no biofumigant and no full break before it",
                  occasion.crop().name, pathogen.name);
  words.help = fmt::format(
      "grow one of these before it, chop it in at first flower and wait: {}; results run from nil "
      "to strong",
      plants);
  return words;
}

}  // namespace

Rule biofumigant_before_prone() {
  return {garden::RuleId::BiofumigantBeforeProne, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
