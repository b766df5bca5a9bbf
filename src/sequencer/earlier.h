#pragma once

#include <optional>

#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// The plan that is being changed as far as rules still allow it, one path a bed: where the search
/// begins, so that it changes only what pays. Empty where there is none.
[[nodiscard]] std::optional<Assignment> earlier_assignment(const garden::Garden& garden,
                                                           const std::vector<BedClass>& classes,
                                                           const Objective& objective);

}  // namespace aftercrop::sequencer
