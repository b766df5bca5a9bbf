#pragma once

#include <vector>

#include "aftercrop/climate/site_climate.h"
#include "sequencer/objective.h"

namespace aftercrop::sequencer {

/// Every planting worth thinking of at one kind of site: wanted crops in each open week whose
/// harvest some want is open for, and covers by start and ending. In order of start, crop, end.
[[nodiscard]] std::vector<ledger::StandSpec> candidate_stands(const garden::Garden& garden,
                                                              const catalogue::Catalogue& catalogue,
                                                              const climate::SiteClimate& site,
                                                              const Objective& objective,
                                                              bool disease_seen);

/// The same for one food crop.
[[nodiscard]] std::vector<ledger::StandSpec> candidate_stands_of(
    const garden::Garden& garden, const catalogue::Catalogue& catalogue,
    const climate::SiteClimate& site, const Objective& objective, catalogue::CropId crop);

}  // namespace aftercrop::sequencer
