#pragma once

#include <vector>

#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// A value that no plan exceeds, from any prices: what wants could earn above the prices, plus
/// what the best path of every bed earns at them when breaks, ledgers and all costs are left out
/// (they only ever cost), plus the hands' hours at their price.
[[nodiscard]] double upper_bound(const std::vector<BedClass>& classes, const Objective& objective,
                                 const Prices& prices);

}  // namespace aftercrop::sequencer
