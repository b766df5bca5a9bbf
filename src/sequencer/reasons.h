#pragma once

#include <string>
#include <vector>

#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// Why a want stays short in a finished plan, and what would help. Obstacles are taken away one
/// after the other, and stay away if the want is short without them too (deletion filtering): what
/// is left is a smallest set of reasons, none of which can be spared.
[[nodiscard]] std::string reason_for(const WantRow& want, const std::vector<BedClass>& classes,
                                     const Objective& objective, const Assignment& plan);

}  // namespace aftercrop::sequencer
