#pragma once

#include "aftercrop/sequencer/sequence.h"
#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// How much of each want of the garden an assignment meets.
[[nodiscard]] std::vector<garden::WantMet> wants_met_by(const Assignment& plan,
                                                        const garden::Garden& garden,
                                                        const Objective& objective);

/// What a finished assignment is as plan, wants met, nitrogen and value. Bound, counters and time
/// are left to the driver.
[[nodiscard]] Outcome report(const Assignment& assignment, const garden::Garden& garden,
                             const std::vector<BedClass>& classes, const Objective& objective);

}  // namespace aftercrop::sequencer
