#pragma once

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::check {

/// How much of a want a plan meets.
struct WantMet {
  std::size_t want = 0;  ///< place in garden.wants
  double met = 0.0;      ///< in the want's unit, never above its amount
};

/// What harvests give to wants: each week's share counts once, for the open want of that crop
/// whose window ends first.
[[nodiscard]] std::vector<WantMet> wants_met(const garden::Garden& garden,
                                             const catalogue::Catalogue& catalogue,
                                             const std::vector<garden::Planting>& plantings);

/// sum(weight x met share) / sum(weight); 1 where nothing is wanted.
[[nodiscard]] double share_met(const garden::Garden& garden, const std::vector<WantMet>& met);

/// What a whole-garden judgement found.
struct Judgement {
  diagnostic::Diagnostics findings;         ///< sorted by place
  std::vector<ledger::BedAccount> accounts; ///< one a bed, in the garden's order
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
