#pragma once

#include <string>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/emit/json.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::cli {

/// When a crop may be started in the year from the garden's first season, under each shelter that a
/// bed of the garden has.
[[nodiscard]] emit::SeasonsHere seasons_here(const catalogue::Catalogue& catalogue,
                                             const catalogue::Crop& crop,
                                             const garden::Garden& garden);

/// The same as rows of the crop's sheet: starts, harvests, early cultivars, and what shuts the
/// weeks before and after.
[[nodiscard]] std::string season_rows(const catalogue::Catalogue& catalogue,
                                      const catalogue::Crop& crop, const garden::Garden& garden);

}  // namespace aftercrop::cli
