#pragma once

#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/ids.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::sequencer {

/// All that is needed to work the bound out again: prices, the fees of family breaks, and what no
/// path of each class earns at them.
struct Certificate {
  /// Price of a square metre's harvest of a crop in weeks in which the same wants are open.
  struct SupplyPrice {
    catalogue::CropId crop;
    calendar::WeekSpan weeks;
    double per_m2 = 0.0;
  };
  /// Price of a square metre that a rounding counts: stands come in whole beds, so that with
  /// `unit_m2` = u of what is wanted w and r = w - u floor(w / u), the sum over stands that give m2
  /// each of r floor(m2 / u) + min(m2 mod u, r), and what is missing, are at least r (floor(w / u)
  /// + 1).
  struct RoundingPrice {
    std::size_t want = 0;  ///< place in the garden's wants
    double unit_m2 = 0.0;
    double per_m2 = 0.0;
  };
  /// What a stand of the group whose break covers that season pays; see Completion.
  struct Fee {
    catalogue::BreakGroupId group;
    int season = 0;
    double fee = 0.0;
  };
  /// Beds that are alike.
  struct ClassBound {
    std::vector<garden::BedId> beds;
    std::vector<Fee> fees;
    double per_bed = 0.0;
  };

  std::vector<SupplyPrice> supplies;
  std::vector<RoundingPrice> roundings;
  std::vector<double> work;  ///< per hour, one a week of the seasons; empty = hands not counted
  std::vector<ClassBound> classes;
  double bound = 0.0;
};

}  // namespace aftercrop::sequencer
