#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "cli/crop_choice.h"

namespace aftercrop::cli {

/// One line a crop: id, name, family, how it feeds, and what it yields or was asked for.
[[nodiscard]] std::string crop_table(const catalogue::Catalogue& catalogue,
                                     const CropChoice& choice, garden::UnitSystem units);

/// All figures of the one crop chosen with their sources.
[[nodiscard]] std::string crop_sheet(const catalogue::Catalogue& catalogue,
                                     const CropChoice& choice, garden::UnitSystem units);

}  // namespace aftercrop::cli
