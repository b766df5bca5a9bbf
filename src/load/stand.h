#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "load/fields.h"
#include "load/lookup.h"
#include "load/measure.h"

namespace aftercrop::load {

/// One record of a stand as typed: in a history, a list of kept stands, or a plan.
struct Stand {
  std::vector<garden::BedId> beds;
  catalogue::CropId crop;
  std::optional<calendar::Date> from;
  std::optional<calendar::Date> to;
  std::optional<int> year;  ///< a season-year instead of dates
  std::optional<calendar::Date> raised;
  std::optional<calendar::DateSpan> harvest;
  std::optional<catalogue::Ending> ending;
  garden::Resistance resistance = garden::Resistance::None;
  std::vector<garden::Partner> partners;
  std::optional<Measure> yield;    ///< mass or mass an area
  std::optional<double> dry_t_ha;  ///< a cover's measured top growth
  std::optional<double> n_pct;
  diagnostic::Source source;
};

/// Reads one record. Errors: `missing-key`, `date-order`, `unknown-ending`, and those of names,
/// dates and quantities.
[[nodiscard]] std::optional<Stand> read_stand(const Node& node, Lookup& lookup,
                                              diagnostic::Diagnostics& out);

/// How a stand of the crop usually ends in this garden.
[[nodiscard]] catalogue::Ending usual_ending(const catalogue::Crop& crop, garden::Tillage tillage,
                                             bool frost_kills);

}  // namespace aftercrop::load
