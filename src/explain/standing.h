#pragma once

#include <vector>

#include "aftercrop/explain/explain.h"
#include "aftercrop/garden/want_met.h"

namespace aftercrop::explain {

/// A stand as the ledger saw it, with what is needed to speak of it without trying another.
struct Standing {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const std::vector<catalogue::PathogenId>& tracked;  ///< whose loads `line` has
  const ledger::StandLine& line;
  const garden::Planting* previous = nullptr;
  const garden::Planting* next = nullptr;
  bool winter = false;  ///< a wet or freezing season begins while it stands
};

/// All stands of one crop in all beds, and what wants of it get from them together.
struct CropStands {
  std::vector<const garden::Planting*> plantings;
  std::vector<garden::WantMet> met;
};
[[nodiscard]] CropStands stands_of(const garden::Garden& garden,
                                   const catalogue::Catalogue& catalogue,
                                   std::vector<const garden::Planting*> plantings);

/// Who decided it; what it stands ahead of; what wants get from it; what it fixes; that it covers
/// the ground; the legume that it follows; the break and the diseases that it meets.
[[nodiscard]] std::vector<Reason> standing_reasons(const Standing& standing,
                                                   const CropStands& same_crop);

}  // namespace aftercrop::explain
