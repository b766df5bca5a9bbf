#pragma once

#include "aftercrop/check/way_out.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/want_met.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::check {

using garden::share_met;
using garden::WantMet;
using garden::wants_met;

/// What is asked of a judgement beside its findings.
struct Ask {
  bool history_only = false;  ///< judge the garden's own past; the plan is empty
  bool accounts = true;       ///< every posting of every bed
  bool ways_out = true;       ///< help that was tried, not only the rule's words
};

/// What a whole-garden judgement found.
struct Judgement {
  diagnostic::Diagnostics findings;          ///< sorted by place
  std::vector<ledger::BedAccount> accounts;  ///< one a bed, in the garden's order, if asked for
  std::vector<WantMet> wants;
  std::vector<Cure> cures;  ///< ways out that findings name, in the order of the beds
};

/// Judges a plan: every rule the garden has not switched off, on every stand from the start of the
/// seasons on, plus idle winters, double bookings, neighbours, partners, tests and wants. `garden`,
/// `catalogue` and `plan` must outlive the result.
[[nodiscard]] Judgement judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                              const ledger::SiteClimates& climates, const garden::Plan& plan,
                              const Ask& ask = {});

}  // namespace aftercrop::check
