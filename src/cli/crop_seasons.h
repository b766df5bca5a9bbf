#pragma once

#include <string>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/emit/json.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::cli {

/// The climate of the garden's site under a shelter, long enough about a week for starts of the
/// year from it and for what comes of them. Its crops are to be prepared.
[[nodiscard]] climate::SiteClimate climate_about(const catalogue::Catalogue& catalogue,
                                                 const garden::Garden& garden,
                                                 garden::Shelter shelter, calendar::Week week);

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
