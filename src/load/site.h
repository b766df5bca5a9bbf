#pragma once

#include <optional>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/load/load.h"
#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// Where a weather file lies beside the garden.
struct SiteContext {
  const catalogue::Catalogue* catalogue;
  const ReadText* read;
  std::string folder;
};

/// The garden's `site:`: a climate by name, the nearest one to a place or to frost dates, or own
/// normals or weather; own frost dates correct any of them. Errors: `unknown-climate`, `no-site`,
/// `frost-dates-far`, `weather-file`. Notes: `site-chosen`, `weather-short`.
[[nodiscard]] std::optional<garden::Site> read_site(const Node& node, const SiteContext& context,
                                                    diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
