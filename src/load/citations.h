#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/range.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// Adds the entries of a `citations:` table: key, then a grade with the work.
void read_bibliography(const Node& node, std::vector<catalogue::Citation>& bibliography,
                       diagnostic::Diagnostics& out);

/// Reads the `source:` of a row: a text, a grade word, a key of the bibliography, `{grade: work}`,
/// a list of these, or a table of them by topic. What is said of a topic replaces what was said of
/// it before. Errors: `unknown-source`, `unknown-grade`.
void read_source(const Node& node, const std::vector<catalogue::Citation>& bibliography,
                 std::vector<catalogue::Citation>& into, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
