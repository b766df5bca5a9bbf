#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/climate/outlook.h"
#include "aftercrop/garden/garden.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// The crops that `crops` lists, in order of their ids.
struct CropChoice {
  std::vector<catalogue::CropId> crops;
  std::string column;                      ///< head of the last column; empty = typical yield
  std::vector<std::string> words;          ///< of that column, one a crop
  std::string climate;                     ///< of the week that was asked for; empty = none was
  std::vector<climate::Outlook> outlooks;  ///< of that week, one a crop
};

/// The week of --sow-in can be read, or none was asked for. False and told.
[[nodiscard]] bool week_is_clear(const CropsOptions& options);

/// Applies the filters of the command. Empty, and told, where one names nothing that is known.
/// `garden` = whose climate --sow-in asks; may be null.
[[nodiscard]] std::optional<CropChoice> choose_crops(const catalogue::Catalogue& catalogue,
                                                     const CropsOptions& options,
                                                     const garden::Garden* garden);

/// Of the one crop chosen: what comes of a start in the week that was asked for, and the weeks of
/// the year from then in which the garden's site lets it start: one outlook, two words. False, and
/// told, where week or garden are missing.
[[nodiscard]] bool say_when(const catalogue::Catalogue& catalogue, const CropsOptions& options,
                            const garden::Garden* garden, CropChoice& choice);

}  // namespace aftercrop::cli
