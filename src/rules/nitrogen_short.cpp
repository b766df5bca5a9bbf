// nitrogen-short: the bed offered less nitrogen than the crop's demand, beyond the ledger's own
// uncertainty. In a plan of ours the shortfall is already a dose, and only a note.
// Bad: cabbage on sand without manure. Good: the same after vetch.
#include <algorithm>

#include <fmt/format.h>

#include "aftercrop/garden/measure_text.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "German Fertilising Ordinance 2017, Annex 4 Table 4 (published)"};

void look_at_outcome(const Occasion& occasion, const ledger::StandOutcome& outcome, Breaches& out) {
  if (occasion.stand.cover || occasion.stand.legume) return;
  const catalogue::RuleCoefficients& k = occasion.catalogue().coefficients.rules;
  const double band =
      std::max(k.short_band.value, k.short_band_share * occasion.stand.demand.total());
  if (outcome.flows.shortfall <= band) return;
  Breach breach;
  breach.rule = garden::RuleId::NitrogenShort;
  breach.computed = outcome.flows.shortfall;
  breach.limit = band;
  breach.unit = "kg N/ha";
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const garden::Bed& bed = occasion.ledger.bed();
  const garden::UnitSystem units = occasion.ledger.garden().units;
  Words words;
  words.message =
      fmt::format("{} lacks about {} of nitrogen on this bed ({} is within doubt)",
                  occasion.crop().name, garden::nitrogen_text(breach.computed, bed, units),
                  garden::nitrogen_text(breach.limit, bed, units));
  words.help = "put a legume before it, or feed it: test the soil first and keep to local limits";
  return words;
}

}  // namespace

Rule nitrogen_short() {
  return {garden::RuleId::NitrogenShort, nullptr, nullptr, look_at_outcome, describe, kReferences};
}

}  // namespace aftercrop::rules
