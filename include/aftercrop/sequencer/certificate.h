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
  std::vector<double> work;  ///< per hour, one a week of the seasons; empty = hands not counted
  std::vector<ClassBound> classes;
  double bound = 0.0;
};

}  // namespace aftercrop::sequencer
