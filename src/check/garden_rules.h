#pragma once

#include <optional>
#include <vector>

#include "aftercrop/check/bed_run.h"
#include "aftercrop/garden/want_met.h"

namespace aftercrop::check {

/// A garden on trial: its cases and runs, one a bed, in the garden's order.
struct Ground {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const std::vector<BedCase>& cases;
  const std::vector<BedRun>& runs;
};

/// A finding of a rule as the garden sets it, `below` steps lower; empty where it is switched off.
[[nodiscard]] std::optional<diagnostic::Diagnostic> finding_of(const garden::Garden& garden,
                                                               garden::RuleId rule, int below = 0);

/// want-unmet: less than was asked for is harvested.
void judge_wants(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const std::vector<garden::WantMet>& wants, diagnostic::Diagnostics& out);
/// seedling-beside-suppressor: small seed beside a plant that holds seedlings back.
void judge_neighbours(const Ground& ground, diagnostic::Diagnostics& out);
/// partner-missing: a pest of the garden has a partner plant that is not there. A note a pest.
void judge_partners(const Ground& ground, diagnostic::Diagnostics& out);
/// test-disagrees: a soil test and the ledger are further apart than both allow.
/// `accounts` = those of the beds that were tested, or of all.
void judge_tests(const Ground& ground, const std::vector<ledger::BedAccount>& accounts,
                 diagnostic::Diagnostics& out);

}  // namespace aftercrop::check
