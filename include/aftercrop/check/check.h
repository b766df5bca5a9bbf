#pragma once

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/want_met.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::check {

using garden::share_met;
using garden::WantMet;
using garden::wants_met;

/// What a whole-garden judgement found.
struct Judgement {
  diagnostic::Diagnostics findings;          ///< sorted by place
  std::vector<ledger::BedAccount> accounts;  ///< one a bed, in the garden's order
  std::vector<WantMet> wants;
};

/// Judges a plan: every rule the garden has not switched off, on every stand from the start of the
/// seasons on, plus idle winters, double bookings and wants. With an empty plan and
/// `history_only`, the garden's own history. `garden`, `catalogue` and `plan` must outlive the
/// result.
[[nodiscard]] Judgement judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                              const ledger::SiteClimates& climates, const garden::Plan& plan,
                              bool history_only = false);

}  // namespace aftercrop::check
