#pragma once

#include <string>

#include "aftercrop/catalogue/catalogue.h"

namespace aftercrop::cli {

/// Rows of each table and their figures by how well founded they are.
[[nodiscard]] std::string crop_summary(const catalogue::Catalogue& catalogue);

}  // namespace aftercrop::cli
