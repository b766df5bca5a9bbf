#pragma once

#include <optional>
#include <string>
#include <vector>

#include "load/beds.h"

namespace aftercrop::load {

/// One row of `beds:`, before it is divided into accounts.
struct BedRow {
  std::vector<std::string> names;
  int sections = 1;
  garden::Bed bed;  ///< length, width and area of the whole bed
};

/// `{bed: N1, length: 16 ft, ...}`.
[[nodiscard]] std::optional<BedRow> read_bed_row(const Node& node, const BedContext& context,
                                                 diagnostic::Diagnostics& out);

/// `6 of 8 ft x 4 ft`: beds named A, B, C..., divided at about 1.2 m.
[[nodiscard]] std::optional<BedRow> read_short_beds(const Node& node, const BedContext& context,
                                                    diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
