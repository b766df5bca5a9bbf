#pragma once

#include <vector>

#include "aftercrop/garden/planting.h"
#include "load/history.h"

namespace aftercrop::load {

/// A rotation as a table (`years:`, `beds:` with a row a bed, a cell a year) or as a cycle that
/// each bed joins one step further on. In a cell `[a, b]` stand one after the other, `a + b` side
/// by side in the sections of the bed; a cover before the year's crop stands in the winter before.
/// Errors: `rotation-shape`, `unknown-bed`, `unknown-crop`.
[[nodiscard]] std::vector<garden::Planting> read_rotation(const Node& node,
                                                          const RecordContext& context,
                                                          diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
