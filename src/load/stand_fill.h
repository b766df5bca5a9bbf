#pragma once

#include <vector>

#include "aftercrop/garden/garden.h"
#include "load/assumed.h"
#include "load/stand.h"
#include "load/stand_years.h"

namespace aftercrop::load {

struct FillContext {
  const catalogue::Catalogue* catalogue;
  const garden::Garden* garden;
  StandYears* years;
  Assumed* assumed;
};

/// The stand in each of its sections, with what it leaves out filled in from catalogue and climate:
/// start in the middle of the sowing window of its year, end and harvest from the days the crop
/// needs, the usual ending.
[[nodiscard]] std::vector<garden::Planting> plantings_of(const Stand& stand,
                                                         const FillContext& context);

}  // namespace aftercrop::load
