#pragma once

#include "aftercrop/ledger/bed_ledger.h"
#include "aftercrop/rules/rule.h"
#include "terms.h"

namespace aftercrop::verifier {

/// Adds what breaches cost a stand that is worth so much; false where a required rule refuses it.
[[nodiscard]] bool charge_breaches(const rules::Breaches& breaches, const garden::Garden& garden,
                                   double worth, Terms& terms);

/// Adds what the diseases seen in the bed may cost the stand: clamp((2 + log2 r) / 2, 0, 1) of the
/// share of its worth, r = the load that it meets in units of the damage threshold.
void charge_disease(const ledger::BedLedger& ledger, const ledger::BedState& before,
                    const ledger::Stand& stand, double worth, Terms& terms);

/// What an idle week that leaves the bed so costs for bare ground, money a square metre.
[[nodiscard]] double bare_week_cost(const ledger::BedState& after, const garden::Garden& garden);

inline constexpr double kSquareMetresPerHa = 10000.0;

}  // namespace aftercrop::verifier
