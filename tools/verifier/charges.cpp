#include "charges.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::verifier {

bool charge_breaches(const rules::Breaches& breaches, const garden::Garden& garden, double worth,
                     Terms& terms) {
  bool allowed = true;
  for (const rules::Breach& breach : breaches) {
    const garden::Setting setting = rules::setting_of(breach, garden.policy);
    if (setting == garden::Setting::Require) allowed = false;
    if (setting == garden::Setting::Warn) terms[Term::Warnings] += garden.costs.warn_share * worth;
  }
  return allowed;
}

void charge_disease(const ledger::BedLedger& ledger, const ledger::BedState& before,
                    const ledger::Stand& stand, double worth, Terms& terms) {
  for (std::size_t i = 0; i < before.loads.size(); ++i) {
    if (!before.loads[i].seen || !stand.loads[i].prone) continue;
    const double met = ledger::met_central(before, stand, i);
    if (met <= 0.0) continue;
    const double risk = std::clamp(1.0 + 0.5 * std::log2(met), 0.0, 1.0);
    terms[Term::Disease] += ledger.garden().costs.disease_share * worth * risk;
  }
}

double bare_week_cost(const ledger::BedState& after, const garden::Garden& garden) {
  const bool counts = garden.policy.of(garden::RuleId::BareWinter) >= garden::Setting::Warn;
  return counts && after.bare_weeks >= ledger::kBareWeekThatCounts ? garden.costs.bare_week_per_m2
                                                                   : 0.0;
}

}  // namespace aftercrop::verifier
