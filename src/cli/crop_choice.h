#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// The crops that `crops` lists, in order of their ids.
struct CropChoice {
  std::vector<catalogue::CropId> crops;
  std::string column;              ///< head of the last column; empty = typical yield
  std::vector<std::string> words;  ///< of that column, one a crop
};

/// Applies the filters of the command. Empty, and told, where one names nothing that is known.
[[nodiscard]] std::optional<CropChoice> choose_crops(const catalogue::Catalogue& catalogue,
                                                     const CropsOptions& options,
                                                     const Shared& shared);

/// Of the one crop chosen: what comes of a start in the week that was asked for, and the weeks of
/// the year from then in which the garden's site lets it start: two words. False, and told, where
/// these are missing.
[[nodiscard]] bool say_when(const catalogue::Catalogue& catalogue, const CropsOptions& options,
                            const Shared& shared, CropChoice& choice);

}  // namespace aftercrop::cli
