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

}  // namespace aftercrop::cli
