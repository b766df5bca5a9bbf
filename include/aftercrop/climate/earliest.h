#pragma once

#include "aftercrop/catalogue/crop.h"
#include "aftercrop/catalogue/site_coefficients.h"

namespace aftercrop::climate {

/// When a class of crops may first be started in spring, where there is frost.
struct EarliestRule {
  double days_from_last_frost = 0.0;  ///< trade rule: days after the median last frost
  double hurts_seedling_c = 0.0;      ///< screen minimum that hurts a hardened seedling
  double risk = 0.1;                  ///< chance of such a night to come that is taken
};

/// The rule of a class.
[[nodiscard]] EarliestRule earliest_rule(catalogue::SowingClass sowing_class,
                                         const catalogue::EarliestStarts& starts);

}  // namespace aftercrop::climate
