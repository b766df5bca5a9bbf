#pragma once

#include <string>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::emit {

/// A plan file: one flow row a planting, sorted by bed, then start. Our own reader gives the same
/// plan back, whatever the names hold.
[[nodiscard]] std::string plan_yaml(const garden::Garden& garden,
                                    const catalogue::Catalogue& catalogue,
                                    const garden::Plan& plan);

}  // namespace aftercrop::emit
