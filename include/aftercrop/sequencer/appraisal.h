#pragma once

#include <memory>
#include <vector>

#include "aftercrop/sequencer/sequence.h"

namespace aftercrop::sequencer {

/// What a plan is worth by the search's own objective, and what it would be worth with other stands
/// in one bed. Stands begun before the seasons are not priced; a kept stand pays for its nitrogen
/// only, as in the search. A breach that forbids is not priced either: ask the rules.
class Appraisal {
 public:
  /// All references must outlive the appraisal.
  Appraisal(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
            const ledger::SiteClimates& climates, const garden::Plan& plan);
  ~Appraisal();
  Appraisal(const Appraisal&) = delete;
  Appraisal& operator=(const Appraisal&) = delete;

  /// The plan as it is.
  [[nodiscard]] Value whole() const;
  /// The plan with `plantings` (its history too, in order of start) in place of what stands in
  /// `bed`.
  [[nodiscard]] Value with(garden::BedId bed,
                           const std::vector<const garden::Planting*>& plantings) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace aftercrop::sequencer
