#pragma once

#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// Reads the trees of catalogue files into `rows`, in an order that lets rows name each other
/// across files: citations, families, then crops, then what names crops. With `over_base` a row
/// whose id is known changes single keys of that row.
void read_catalogue(const std::vector<const Node*>& trees, bool over_base,
                    catalogue::Catalogue& rows, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
