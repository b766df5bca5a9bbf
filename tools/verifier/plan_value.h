#pragma once

#include <string>
#include <vector>

#include "aftercrop/ledger/account.h"
#include "terms.h"
#include "wanted.h"

namespace aftercrop::verifier {

/// What a plan is worth by its own ledgers.
struct PlanValue {
  Terms terms;
  std::vector<std::string> objections;  ///< stands that overlap or that a required rule refuses
};

/// Walks every bed through history and plan with a journal and adds up its postings, its stands
/// and its idle weeks from the start of the seasons on.
[[nodiscard]] PlanValue value_of(const garden::Garden& garden,
                                 const catalogue::Catalogue& catalogue,
                                 const ledger::SiteClimates& climates, const garden::Plan& plan);

}  // namespace aftercrop::verifier
