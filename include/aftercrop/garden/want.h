#pragma once

#include <string>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::garden {

enum class WantUnit { Kilograms, Stems, Plants, SquareMetres };
[[nodiscard]] std::string_view name(WantUnit unit);

/// What the kitchen or the stall needs: so much of one crop inside one window. A repeated want
/// (`every: 1 week`) is one Want a repeat; they share `series`.
struct Want {
  catalogue::CropId crop;
  double amount = 0.0;  ///< in `unit`
  WantUnit unit = WantUnit::Kilograms;
  calendar::WeekSpan window;  ///< weeks whose harvest counts
  double weight = 1.0;
  int series = 0;  ///< running number of the line in the garden file
  diagnostic::Source source;
};

/// What one square metre of the crop gives over a whole typical harvest, in the want's unit; 0
/// where the crop gives nothing of that kind.
[[nodiscard]] double yield_per_m2(const catalogue::Crop& crop, WantUnit unit);

/// Square metres of the crop that the want needs at typical yield.
[[nodiscard]] double area_needed_m2(const Want& want, const catalogue::Crop& crop);

}  // namespace aftercrop::garden
