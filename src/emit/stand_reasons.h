#pragma once

#include <string>
#include <vector>

#include "emit/bed_stands.h"

namespace aftercrop::emit {

/// Why a stand is where it is: what it is for, what it follows, how long its kin were away. Phrases
/// without a full stop, read from the account of the bed; at least one.
[[nodiscard]] std::vector<std::string> stand_reasons(const CalendarInput& input,
                                                     const StandView& stand);

}  // namespace aftercrop::emit
