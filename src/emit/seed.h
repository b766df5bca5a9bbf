#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/bed.h"
#include "aftercrop/garden/planting.h"

// How much seed or how many plants a stand takes.
namespace aftercrop::emit {

/// Plants in a bed on a square pattern, half a spacing left at each edge, at least one row.
[[nodiscard]] double stations(const catalogue::Crop& crop, const garden::Bed& bed);

struct Stock {
  std::string what;  ///< "carrot seed", "garlic cloves"
  double amount = 0.0;
  std::string unit;    ///< "g", or "" for a count
  double seeds = 0.0;  ///< how many seeds that mass is; 0 where nobody counts them
};

/// What to have at hand for `share` of a bed. Seed in grams with a margin of 30 % and a
/// germination of 75 %; counts with 10 %. `raised` = sown under cover, one seed a plant. Amount 0
/// where the catalogue has no figure.
[[nodiscard]] Stock stock_for(const catalogue::Crop& crop, const garden::Bed& bed, double share,
                              bool raised);

/// The same, a line a thing to buy: of a mixture the seed of each part.
[[nodiscard]] std::vector<Stock> stocks_for(const catalogue::Catalogue& catalogue,
                                            const catalogue::Crop& crop, const garden::Bed& bed,
                                            double share, bool raised);

/// The share of a bed that partners take together (our choice).
inline constexpr double kPartnerShare = 0.2;

}  // namespace aftercrop::emit
