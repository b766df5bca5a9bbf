#pragma once

#include <string>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/load/load.h"
#include "load/stand_fill.h"

namespace aftercrop::load {

/// What the readers of records share.
struct RecordContext {
  FillContext fill;
  Lookup* lookup;
  const ReadText* read;
  std::string folder;  ///< of the garden file
};

/// `history:` with the plans that it takes as done, and `keep:`. Later lines correct a plan's rows;
/// equal rows count once. Sorted by bed, then start. Errors: `history-overlap`, `plan-file`, and
/// those of stands.
[[nodiscard]] std::vector<garden::Planting> read_history(const Node* history, const Node* keep,
                                                         const RecordContext& context,
                                                         diagnostic::Diagnostics& out);

/// Sorts by bed, then start, then crop.
void sort_plantings(std::vector<garden::Planting>& plantings);

/// Same bed, crop and dates.
[[nodiscard]] bool same_stand(const garden::Planting& a, const garden::Planting& b);

/// The path of a file named in another file of `folder`.
[[nodiscard]] std::string beside(const std::string& folder, const std::string& name);

}  // namespace aftercrop::load
