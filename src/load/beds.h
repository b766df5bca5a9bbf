#pragma once

#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/load/tree.h"
#include "load/assumed.h"

namespace aftercrop::load {

/// What a bed is where its own row is silent.
struct Ground {
  catalogue::SoilId soil;
  bool bought_mix = false;
};

/// `loam`, `bought mix`. Error: `unknown-soil`.
[[nodiscard]] std::optional<Ground> read_ground(const Node& node,
                                                const catalogue::Catalogue& catalogue,
                                                diagnostic::Diagnostics& out);

struct BedContext {
  const catalogue::Catalogue* catalogue;
  std::optional<Ground> ground;  ///< the garden's own `soil:`
  std::optional<bool> watered;   ///< the garden's own `irrigation:`
  Assumed* assumed;
  garden::UnitSystem units = garden::UnitSystem::Metric;  ///< of what is told
};

/// The most accounts (beds and sections) of one garden.
inline constexpr std::size_t kMostAccounts = 2000;

/// Error `too-many-beds`, at the bed that is one too many.
void report_too_many_beds(const diagnostic::Source& source, diagnostic::Diagnostics& out);

/// All accounts of the garden's `beds:`, one entry a section. Errors: `bed-named-twice`,
/// `bed-name`, `too-many-beds`, and those of fields and quantities.
[[nodiscard]] std::vector<garden::Bed> read_garden_beds(const Node& node, const BedContext& context,
                                                        diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
