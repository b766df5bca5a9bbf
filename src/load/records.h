#pragma once

#include <vector>

#include "aftercrop/garden/garden.h"
#include "load/lookup.h"

namespace aftercrop::load {

/// Soil tests, one entry an account. A test of a bed counts for all its sections.
[[nodiscard]] std::vector<garden::SoilTest> read_tests(const Node& node,
                                                       const garden::Garden& garden, Lookup& lookup,
                                                       diagnostic::Diagnostics& out);

/// Disease seen: all sections of a bed that is named; half for the others of a section that is.
[[nodiscard]] std::vector<garden::Sighting> read_sightings(const Node& node,
                                                           const garden::Garden& garden,
                                                           Lookup& lookup,
                                                           diagnostic::Diagnostics& out);

/// What was spread, one entry an account and date; `seasons` for lines with `each: year`. Errors:
/// `too-much-nitrogen` (over 300 kg/ha of available nitrogen in a year).
[[nodiscard]] std::vector<garden::Application> read_amendments(const Node& node,
                                                               const garden::Garden& garden,
                                                               Lookup& lookup,
                                                               diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
