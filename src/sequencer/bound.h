#pragma once

#include <vector>

#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// What a square metre met takes from each want at the prices of its roundings.
[[nodiscard]] std::vector<double> lost_to_roundings(const Prices& prices, std::size_t wants);

/// A value that no plan exceeds, from any prices: what wants could earn above the prices, plus
/// what each bed could earn at them, plus the hands' hours at their price. `class_bounds` = what
/// no path of one bed of the class earns at these prices, one a class.
[[nodiscard]] double upper_bound(const std::vector<BedClass>& classes, const Objective& objective,
                                 const Prices& prices, const std::vector<double>& class_bounds);

}  // namespace aftercrop::sequencer
