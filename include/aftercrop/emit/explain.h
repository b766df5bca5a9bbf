#pragma once

#include <string>

#include "aftercrop/explain/explain.h"

namespace aftercrop::emit {

/// What the words of an explanation are about.
struct Explained {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const climate::SiteClimate& site;  ///< of the bed
  const explain::Explanation& told;
  std::optional<catalogue::CropId> crop;  ///< that was asked for
};

/// For a grower: why, the last safe day, the crop that was asked for, what else ranked. Changes of
/// value are said as shares of the plan's.
[[nodiscard]] std::string explain_text(const Explained& explained, int width);
/// The same for programs, as tools/schema/explain.json describes it.
[[nodiscard]] std::string explain_json(const Explained& explained);

}  // namespace aftercrop::emit
