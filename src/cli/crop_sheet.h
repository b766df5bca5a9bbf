#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"

namespace aftercrop::cli {

/// One line a crop: id, name, break group, how it feeds, what it yields.
[[nodiscard]] std::string crop_table(const catalogue::Catalogue& catalogue,
                                     const std::vector<catalogue::CropId>& crops);

/// All figures of one crop with their sources.
[[nodiscard]] std::string crop_sheet(const catalogue::Catalogue& catalogue, catalogue::CropId id);

}  // namespace aftercrop::cli
