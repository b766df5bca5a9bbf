#pragma once

#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "load/stand_years.h"

namespace aftercrop::load {

/// One crop of a rotation in one section, in the order in which they stand.
struct RotationItem {
  catalogue::CropId crop;
  int year = 0;          ///< season-year; of a cover that leads, that of the crop it leads to
  bool leads = false;    ///< a cover up to the next crop: in the winter before it
  calendar::Weeks rest;  ///< bed left alone between a cover that leads and the crop it leads to
  diagnostic::Source source;
};

struct RotationDates {
  calendar::Week from;
  calendar::Week to;
};

/// Places the crops of one section: each in the middle of its window, moved only as far as its
/// neighbours need, and harvested for shorter where that alone makes room. What cannot be fitted
/// starts as near as it can to when the bed is free, and so overlaps. One entry an item.
[[nodiscard]] std::vector<RotationDates> place_rotation(const std::vector<RotationItem>& items,
                                                        const std::vector<catalogue::Crop>& crops,
                                                        StandYears& years);

}  // namespace aftercrop::load
