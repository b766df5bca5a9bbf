#pragma once

#include <vector>

#include "aftercrop/garden/garden.h"
#include "load/lookup.h"
#include "load/seasons.h"

namespace aftercrop::load {

struct WantContext {
  const garden::Garden* garden;
  const Seasons* seasons;
  Lookup* lookup;
};

/// The garden's `wants:`: one Want a window, so one a repeat and one a year. A want without an
/// amount is what its equal share of the land typically gives; salads in small repeats. Errors:
/// `want-unit`, `date-order`, `too-many-wants`. Notes: `want-share`, `want-each-year`.
[[nodiscard]] std::vector<garden::Want> read_wants(const Node& node, const WantContext& context,
                                                   diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
