#pragma once

#include <vector>

#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// A value that no plan exceeds, from any prices: what wants could earn above the prices, plus
/// what each bed could earn at them, plus the hands' hours at their price. `class_bounds` = what
/// no path of one bed of the class earns at these prices, one a class.
[[nodiscard]] double upper_bound(const std::vector<BedClass>& classes, const Objective& objective,
                                 const Prices& prices, const std::vector<double>& class_bounds);

}  // namespace aftercrop::sequencer
