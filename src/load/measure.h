#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "load/fields.h"

namespace aftercrop::load {

/// What a typed quantity can be. Values are converted to the unit named here.
enum class Dimension {
  Length,         ///< m
  Area,           ///< m2
  Mass,           ///< kg
  Volume,         ///< litres
  MassPerArea,    ///< kg/m2
  VolumePerArea,  ///< litres/m2 = mm
  Temperature,    ///< C
  Share,          ///< %
  Concentration,  ///< ppm
  CountPerGram,   ///< /g
  Plants,
  Stems,
  Beds,
  Sections,
  Weeks,
  Hours,
  PricePerKg,
  PricePerHour,
  PricePerM2,
};

struct Measure {
  double value = 0.0;  ///< in the unit of the dimension
  Dimension dimension = Dimension::Length;
  double half_digit = 0.0;  ///< half the last digit typed, same unit
  double typed = 0.0;       ///< the bare number
};

/// What a reader expects.
struct Ask {
  std::string_view what;              ///< "the length of a bed"
  std::vector<Dimension> dimensions;  ///< accepted
  std::string_view readings;          ///< units that a bare number could have had: "ft, m, cm"
  Limits limits;                      ///< in the unit of the dimension
};

/// "24 ft", "0.75 m", "100 lb/acre". Errors: `missing-unit` (a bare number), `unknown-unit`,
/// `wrong-unit`, `not-a-number`, `out-of-range`.
[[nodiscard]] std::optional<Measure> read_measure(const Node& node, const Ask& ask,
                                                  diagnostic::Diagnostics& out);

/// As `read_measure` for a text that is part of a value.
[[nodiscard]] std::optional<Measure> parse_measure(std::string_view text, const Ask& ask,
                                                   const diagnostic::Source& source,
                                                   diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
