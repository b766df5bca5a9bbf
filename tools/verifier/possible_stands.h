#pragma once

#include <vector>

#include "aftercrop/climate/site_climate.h"
#include "wanted.h"

namespace aftercrop::verifier {

/// Every stand that plans are made of at one kind of site: this is what "no plan" means when a
/// bound says that no plan is worth more.
/// Wanted crops: from each week that is open for them, with the shortest and the longest harvest,
/// as long as some want is open in it. Covers: from each open week, killed by frost, cut at the
/// first useful week, then cut or dug in at every fifth of the way to flower, up to seed. Of covers
/// with equal weeks and ending the two legumes and the one other that hold most nitrogen.
/// `disease_seen` adds what works against diseases.
[[nodiscard]] std::vector<ledger::StandSpec> possible_stands(const garden::Garden& garden,
                                                             const catalogue::Catalogue& catalogue,
                                                             const climate::SiteClimate& site,
                                                             const Wanted& wanted,
                                                             bool disease_seen);

}  // namespace aftercrop::verifier
