#include "aftercrop/garden/want.h"

namespace aftercrop::garden {
namespace {

constexpr double kSquareCmPerM2 = 10000.0;

}  // namespace

std::string_view name(WantUnit unit) {
  switch (unit) {
    case WantUnit::Kilograms:
      return "kg";
    case WantUnit::Stems:
      return "stems";
    case WantUnit::Plants:
      return "plants";
    case WantUnit::SquareMetres:
      break;
  }
  return "m2";
}

double yield_per_m2(const catalogue::Crop& crop, WantUnit unit) {
  switch (unit) {
    case WantUnit::Kilograms:
      return crop.yield_unit == catalogue::YieldUnit::Kilograms ? crop.yield_per_m2.typical : 0.0;
    case WantUnit::Stems:
      return crop.yield_unit == catalogue::YieldUnit::Stems ? crop.yield_per_m2.typical : 0.0;
    case WantUnit::Plants: {
      const double room_cm2 = crop.in_row_cm * crop.between_row_cm;
      return room_cm2 > 0.0 ? kSquareCmPerM2 / room_cm2 : 0.0;
    }
    case WantUnit::SquareMetres:
      break;
  }
  return 1.0;
}

double area_needed_m2(const Want& want, const catalogue::Crop& crop) {
  const double per_m2 = yield_per_m2(crop, want.unit);
  return per_m2 > 0.0 ? want.amount / per_m2 : 0.0;
}

}  // namespace aftercrop::garden
