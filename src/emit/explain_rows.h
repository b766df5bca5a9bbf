#pragma once

#include "aftercrop/emit/explain.h"
#include "emit/latest_start.h"

namespace aftercrop::emit {

/// The last safe day of the stand that is asked about, which there must be.
[[nodiscard]] LatestDay latest_of(const Explained& explained);
/// A reason with its amounts in the garden's units.
[[nodiscard]] std::string words_of(const explain::Reason& reason, garden::UnitSystem units);

}  // namespace aftercrop::emit
