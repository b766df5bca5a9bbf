#pragma once

#include <string>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::emit {

/// Something to buy, for all beds together.
struct OrderLine {
  std::string what;  ///< "carrot seed", "feather meal"
  double amount = 0.0;
  std::string unit;          ///< "g", "kg", "cloves", "plants"
  calendar::Date needed_by;  ///< Monday of the week of its first use
};

/// Seed of one part of a mixture of covers.
struct PartSeed {
  catalogue::CropId crop;
  double share = 0.0;     ///< of the ground, 0..1
  double g_per_m2 = 0.0;  ///< of bed
};

/// How the seed of a mixture is made up: its rate shared out by the ground of each part times the
/// rate of that part alone. Empty for what is no mixture.
[[nodiscard]] std::vector<PartSeed> mixture_seed(const catalogue::Catalogue& catalogue,
                                                 const catalogue::Crop& mixture);

/// Seed (g, with a margin of 30 % for losses), sets and plants by crop, cover seed (g; of a mixture
/// that of each part), amendments (kg): one line a thing and year, sorted by day, then name. Where
/// dates count on an early cultivar the line says so. What starts before the seasons is not
/// ordered.
[[nodiscard]] std::vector<OrderLine> order_list(const garden::Garden& garden,
                                                const catalogue::Catalogue& catalogue,
                                                const garden::Plan& plan,
                                                const std::vector<ledger::BedAccount>& accounts,
                                                const ledger::SiteClimates& climates);

}  // namespace aftercrop::emit
