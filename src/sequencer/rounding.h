#pragma once

#include <vector>

#include "sequencer/objective.h"

namespace aftercrop::sequencer {

/// What whole beds mean to a want. Stands come whole, so that fractions of them can't add up to
/// just what is wanted: with `unit` square metres as the measure,
///   sum over stands of counted(m2 that the stand may give) + (wanted - met) >= least.
/// Holds for every plan of whole beds: mixed-integer rounding of "what is grown and what is
/// missing make up what is wanted" (Nemhauser and Wolsey 1990, Mathematical Programming 46:379).
struct Rounding {
  std::size_t want = 0;       ///< place in Objective::wants()
  double unit = 0.0;          ///< m2
  double rest = 0.0;          ///< of what is wanted beyond whole units, m2
  double least = 0.0;         ///< m2
  std::vector<int> supplies;  ///< rows of the want, in order

  /// `m2` = that one stand may give.
  [[nodiscard]] double counted(double m2) const;
  /// The same of a stand's harvest.
  [[nodiscard]] double counted(const Supply& supply) const { return counted(portion(supply)); }
  /// Square metres of a stand's harvest that may serve the want.
  [[nodiscard]] double portion(const Supply& supply) const;
};

/// `unit` > 0, one above what is wanted becomes one above every bed. `rest` = 0 where what is
/// wanted is whole units: then it says nothing.
[[nodiscard]] Rounding rounding_of(const Objective& objective, std::size_t want, double unit);

}  // namespace aftercrop::sequencer
