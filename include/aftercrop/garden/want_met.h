#pragma once

#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::garden {

/// How much of a want a plan meets.
struct WantMet {
  std::size_t want = 0;  ///< place in garden.wants
  double met = 0.0;      ///< in the want's unit, never above its amount
};

/// What harvests give to wants: each week's share counts once, for the open want of that crop
/// whose window ends first.
[[nodiscard]] std::vector<WantMet> wants_met(const Garden& garden,
                                             const catalogue::Catalogue& catalogue,
                                             const std::vector<Planting>& plantings);

/// One line of the garden file, its repeats together.
struct LineMet {
  const Want* want = nullptr;  ///< the first of the line; lives as long as the garden
  double asked = 0.0;          ///< in the want's unit
  double met = 0.0;
  [[nodiscard]] double share() const { return asked > 0.0 ? met / asked : 1.0; }
};

/// In the order of the garden file. `met` = what `wants_met` says, of all wants or of some.
[[nodiscard]] std::vector<LineMet> lines_met(const Garden& garden, const std::vector<WantMet>& met);

/// sum(weight x met share) / sum(weight) over the lines of the garden file, a repeated want once;
/// 1 where nothing is wanted.
[[nodiscard]] double share_met(const Garden& garden, const std::vector<WantMet>& met);

}  // namespace aftercrop::garden
