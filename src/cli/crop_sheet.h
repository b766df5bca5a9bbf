#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "cli/crop_choice.h"

namespace aftercrop::cli {

/// One line a crop: id, name, family, how it feeds, and what it yields or was asked for.
[[nodiscard]] std::string crop_table(const catalogue::Catalogue& catalogue,
                                     const CropChoice& choice, garden::UnitSystem units);

/// All figures of the one crop chosen with their sources; `garden` = where its seasons are asked,
/// may be null.
[[nodiscard]] std::string crop_sheet(const catalogue::Catalogue& catalogue,
                                     const CropChoice& choice, const garden::Garden* garden);

/// A row of a sheet: its head and what it says.
[[nodiscard]] std::string sheet_row(std::string_view head, std::string_view text);

}  // namespace aftercrop::cli
