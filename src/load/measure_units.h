#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "load/measure.h"

namespace aftercrop::load {

/// A unit as people type it: value in our unit = number x factor + offset.
struct UnitRow {
  std::string_view name;
  Dimension dimension;
  double factor;
  double offset;
};

/// The unit of a typed word (any capitals, with or without a full stop), or nullptr.
[[nodiscard]] const UnitRow* find_unit(std::string_view word);

[[nodiscard]] std::vector<std::string> all_unit_names();

/// The unit that values of a dimension are kept in: "m", "kg/m2".
[[nodiscard]] std::string_view base_unit(Dimension dimension);

}  // namespace aftercrop::load
