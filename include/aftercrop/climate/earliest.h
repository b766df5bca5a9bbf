#pragma once

#include "aftercrop/catalogue/crop.h"

namespace aftercrop::climate {

/// When a class of crops may first be started in spring, where there is frost.
struct EarliestRule {
  double days_from_last_frost = 0.0;  ///< trade rule: days after the median last frost
  double hurts_seedling_c = 0.0;      ///< screen minimum that hurts a hardened seedling
  double risk = 0.1;                  ///< chance of such a night to come that is taken
};

/// Source: Purdue University HO-203 after University of Illinois VC-14 (days, middle of the
/// range); minima and risks common practice.
[[nodiscard]] EarliestRule earliest_rule(catalogue::SowingClass sowing_class);

}  // namespace aftercrop::climate
