#include "load/measure_units.h"

#include <algorithm>
#include <array>

#include "aftercrop/units/us.h"

namespace aftercrop::load {
namespace {

using enum Dimension;

constexpr double kFoot = units::kMPerFoot;
constexpr double kPound = units::kKgPerPound;
constexpr double kOunce = units::kKgPerOunce;
constexpr double kAcre = units::kM2PerAcre;
constexpr double kFoot2 = units::kM2PerSquareFoot;
constexpr double kFoot3 = kFoot2 * kFoot * 1000.0;
constexpr double kGallon = units::kLitresPerGallon;
constexpr double kBucket = 10.0;

const std::array kUnits = {
    UnitRow{"m", Length, 1.0, 0},
    UnitRow{"metre", Length, 1.0, 0},
    UnitRow{"meter", Length, 1.0, 0},
    UnitRow{"cm", Length, 0.01, 0},
    UnitRow{"mm", Length, 0.001, 0},
    UnitRow{"ft", Length, kFoot, 0},
    UnitRow{"foot", Length, kFoot, 0},
    UnitRow{"feet", Length, kFoot, 0},
    UnitRow{"'", Length, kFoot, 0},
    UnitRow{"in", Length, kFoot / 12, 0},
    UnitRow{"inch", Length, kFoot / 12, 0},
    UnitRow{"inche", Length, kFoot / 12, 0},
    UnitRow{"\"", Length, kFoot / 12, 0},
    UnitRow{"yd", Length, 3 * kFoot, 0},
    UnitRow{"yard", Length, 3 * kFoot, 0},
    UnitRow{"m2", Area, 1.0, 0},
    UnitRow{"sq m", Area, 1.0, 0},
    UnitRow{"ft2", Area, kFoot2, 0},
    UnitRow{"sq ft", Area, kFoot2, 0},
    UnitRow{"yd2", Area, 9 * kFoot2, 0},
    UnitRow{"acre", Area, kAcre, 0},
    UnitRow{"ha", Area, 10000.0, 0},
    UnitRow{"kg", Mass, 1.0, 0},
    UnitRow{"g", Mass, 0.001, 0},
    UnitRow{"t", Mass, 1000.0, 0},
    UnitRow{"tonne", Mass, 1000.0, 0},
    UnitRow{"lb", Mass, kPound, 0},
    UnitRow{"pound", Mass, kPound, 0},
    UnitRow{"oz", Mass, kOunce, 0},
    UnitRow{"ounce", Mass, kOunce, 0},
    UnitRow{"l", Volume, 1.0, 0},
    UnitRow{"litre", Volume, 1.0, 0},
    UnitRow{"liter", Volume, 1.0, 0},
    UnitRow{"bucket", Volume, kBucket, 0},
    UnitRow{"gal", Volume, kGallon, 0},
    UnitRow{"gallon", Volume, kGallon, 0},
    UnitRow{"ft3", Volume, kFoot3, 0},
    UnitRow{"cu ft", Volume, kFoot3, 0},
    UnitRow{"yd3", Volume, 27 * kFoot3, 0},
    UnitRow{"cu yd", Volume, 27 * kFoot3, 0},
    UnitRow{"m3", Volume, 1000.0, 0},
    UnitRow{"kg/m2", MassPerArea, 1.0, 0},
    UnitRow{"g/m2", MassPerArea, 0.001, 0},
    UnitRow{"kg/ha", MassPerArea, 1.0e-4, 0},
    UnitRow{"t/ha", MassPerArea, 0.1, 0},
    UnitRow{"lb/acre", MassPerArea, kPound / kAcre, 0},
    UnitRow{"lb/ft2", MassPerArea, kPound / kFoot2, 0},
    UnitRow{"lb/sq ft", MassPerArea, kPound / kFoot2, 0},
    UnitRow{"lb/100 ft2", MassPerArea, kPound / (100 * kFoot2), 0},
    UnitRow{"lb/100 sq ft", MassPerArea, kPound / (100 * kFoot2), 0},
    UnitRow{"lb/1000 ft2", MassPerArea, kPound / (1000 * kFoot2), 0},
    UnitRow{"g/ft2", MassPerArea, 0.001 / kFoot2, 0},
    UnitRow{"g/sq ft", MassPerArea, 0.001 / kFoot2, 0},
    UnitRow{"lb/1000 sq ft", MassPerArea, kPound / (1000 * kFoot2), 0},
    UnitRow{"oz/100 ft2", MassPerArea, kOunce / (100 * kFoot2), 0},
    UnitRow{"oz/100 sq ft", MassPerArea, kOunce / (100 * kFoot2), 0},
    UnitRow{"oz/ft2", MassPerArea, kOunce / kFoot2, 0},
    UnitRow{"oz/yd2", MassPerArea, kOunce / (9 * kFoot2), 0},
    UnitRow{"l/m2", VolumePerArea, 1.0, 0},
    UnitRow{"bucket/m2", VolumePerArea, kBucket, 0},
    UnitRow{"c", Temperature, 1.0, 0},
    UnitRow{"\xc2\xb0"
            "c",
            Temperature, 1.0, 0},
    UnitRow{"f", Temperature, 5.0 / 9.0, -160.0 / 9.0},
    UnitRow{"\xc2\xb0"
            "f",
            Temperature, 5.0 / 9.0, -160.0 / 9.0},
    UnitRow{"%", Share, 1.0, 0},
    UnitRow{"percent", Share, 1.0, 0},
    UnitRow{"ppm", Concentration, 1.0, 0},
    UnitRow{"mg/kg", Concentration, 1.0, 0},
    UnitRow{"/g", CountPerGram, 1.0, 0},
    UnitRow{"/kg", PricePerKg, 1.0, 0},
    UnitRow{"/lb", PricePerKg, 1.0 / kPound, 0},
    UnitRow{"plant", Plants, 1.0, 0},
    UnitRow{"head", Plants, 1.0, 0},
    UnitRow{"stem", Stems, 1.0, 0},
    UnitRow{"bed", Beds, 1.0, 0},
    UnitRow{"section", Sections, 1.0, 0},
    UnitRow{"week", Weeks, 1.0, 0},
    UnitRow{"h", Hours, 1.0, 0},
    UnitRow{"hour", Hours, 1.0, 0},
    UnitRow{"/h", PricePerHour, 1.0, 0},
    UnitRow{"/hour", PricePerHour, 1.0, 0},
    UnitRow{"/m2", PricePerM2, 1.0, 0},
    UnitRow{"/ft2", PricePerM2, 1.0 / kFoot2, 0},
};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
    text.replace(at, from.size(), to);
    at += to.size();
  }
}

/// Small letters, one blank at most, none around the stroke, no full stop, squares as digits.
std::string plain_unit(std::string_view word) {
  std::string text;
  for (const char c : word) {
    if (c == '.') continue;
    if (c == ' ' && (text.empty() || text.back() == ' ' || text.back() == '/')) continue;
    if (c == '/' && !text.empty() && text.back() == ' ') text.pop_back();
    text += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (!text.empty() && text.back() == ' ') text.pop_back();
  replace_all(text, "\xc2\xb2", "2");
  replace_all(text, "\xc2\xb3", "3");
  replace_all(text, "square ", "sq ");
  replace_all(text, "cubic ", "cu ");
  replace_all(text, "sq feet", "sq ft");
  replace_all(text, "sq foot", "sq ft");
  replace_all(text, "sq metre", "sq m");
  replace_all(text, "sq meter", "sq m");
  replace_all(text, "lbs", "lb");
  return text;
}

// In the order of Dimension.
constexpr std::array<std::string_view, 19> kBaseUnits = {
    "m",      "m2",    "kg",   "litres",   "kg/m2", "l/m2",  "C",   "%",  "ppm", "/g",
    "plants", "stems", "beds", "sections", "weeks", "hours", "/kg", "/h", "/m2"};

}  // namespace

const UnitRow* find_unit(std::string_view word) {
  std::string text = plain_unit(word);
  const auto look = [](const std::string& name) -> const UnitRow* {
    const auto* found = std::find_if(kUnits.begin(), kUnits.end(),
                                     [&](const UnitRow& row) { return row.name == name; });
    return found == kUnits.end() ? nullptr : found;
  };
  if (const UnitRow* found = look(text)) return found;
  if (text.size() < 4 || text.back() != 's') return nullptr;
  text.pop_back();
  return look(text);
}

std::vector<std::string> all_unit_names() {
  std::vector<std::string> names;
  names.reserve(kUnits.size());
  for (const UnitRow& row : kUnits) names.emplace_back(row.name);
  return names;
}

std::string_view base_unit(Dimension dimension) {
  return kBaseUnits[static_cast<std::size_t>(dimension)];
}

}  // namespace aftercrop::load
