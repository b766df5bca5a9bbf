#pragma once

#include <string>
#include <vector>

#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// Why a want stays short, in a grower's words: the crop has no open week here, beds are too
/// small for it, rules keep it out of so many beds, or the land went to what is worth more.
[[nodiscard]] std::string reason_for(const WantRow& want, const std::vector<BedClass>& classes,
                                     const Objective& objective);

}  // namespace aftercrop::sequencer
