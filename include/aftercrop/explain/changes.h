#pragma once

#include <string>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::explain {

/// One difference between a plan and the one that takes its place.
struct PlanChange {
  enum class Kind { Gone, New, Moved };
  Kind kind = Kind::New;
  garden::BedId bed;
  const garden::Planting* was = nullptr;  ///< of the earlier plan; null for what is new
  const garden::Planting* now = nullptr;  ///< of the later plan; null for what is gone
  std::string why;                        ///< a phrase
};

/// A plan taken up again on a day: what is done, and what was still to come.
struct Resumed {
  std::vector<garden::Planting> done;  ///< begun before the day; what failed ends by then
  std::vector<garden::Planting> ahead;
};
[[nodiscard]] Resumed resume(const garden::Plan& plan, calendar::Date as_of);

/// What `later` changes of `ahead`, by bed and date. Stands of one crop in one bed that start
/// within 8 weeks of each other have moved. The reason is what the rules or the bed say of the
/// earlier stand after what was done; where they say nothing, that the change is worth more than it
/// costs.
[[nodiscard]] std::vector<PlanChange> changes(const garden::Garden& garden,
                                              const catalogue::Catalogue& catalogue,
                                              const ledger::SiteClimates& climates,
                                              const Resumed& earlier, const garden::Plan& later);

}  // namespace aftercrop::explain
