#include "aftercrop/garden/measure_text.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <utility>

#include "aftercrop/units/us.h"

namespace aftercrop::garden {
namespace {

using units::kKgPerOunce;
using units::kKgPerPound;

constexpr double kLeastOunces = 0.1;

/// A metric unit as sentences have it; its US one, and how many of that are one of it.
struct ProseUnit {
  std::string_view metric;
  std::string_view us;
  double factor;
  double offset = 0.0;
};

constexpr double kAcresPerHectare = 10000.0 / units::kM2PerAcre;
constexpr std::array kProseUnits = {
    ProseUnit{"kg of total nitrogen per hectare", "lb of total nitrogen per acre",
              1.0 / kKgPerPound / kAcresPerHectare},
    ProseUnit{"t/ha", "ton/acre", 1000.0 / units::kKgPerShortTon / kAcresPerHectare},
    ProseUnit{"mm", "in", 0.1 / units::kCmPerInch},
    ProseUnit{"cm", "in", 1.0 / units::kCmPerInch},
    ProseUnit{"m", "ft", 1.0 / units::kMPerFoot},
    ProseUnit{"C", "F", 9.0 / 5.0, 32.0}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_word(char c) { return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// Bytes of the number that `text` starts with: "1.5" of "1.5 m".
std::size_t number_at(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end])) ++end;
  const bool point =
      end > 0 && end + 1 < text.size() && text[end] == '.' && is_digit(text[end + 1]);
  if (!point) return end;
  ++end;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end;
}

std::string converted(std::string_view number, const ProseUnit& unit) {
  const double value = std::stod(std::string(number)) * unit.factor + unit.offset;
  return unit.offset != 0.0 ? fmt::format("{:.0f}", value) : two_digits(value);
}

/// "3 to 6 m" and "15 C" that `text` starts with, in US units; how many bytes they took.
std::pair<std::string, std::size_t> us_amount(std::string_view text) {
  constexpr std::string_view kTo = " to ";
  const std::size_t first = number_at(text);
  std::size_t second = 0;
  std::size_t at = first;
  if (text.substr(at).starts_with(kTo)) {
    second = number_at(text.substr(at + kTo.size()));
    if (second > 0) at += kTo.size() + second;
  }
  if (at >= text.size() || text[at] != ' ') return {};
  for (const ProseUnit& unit : kProseUnits) {
    const std::size_t past = at + 1 + unit.metric.size();
    if (!text.substr(at + 1).starts_with(unit.metric)) continue;
    if (past < text.size() && is_word(text[past])) continue;
    std::string out = converted(text.substr(0, first), unit);
    if (second > 0) out += fmt::format(" to {}", converted(text.substr(at - second, second), unit));
    return {fmt::format("{} {}", out, unit.us), past};
  }
  return {};
}

}  // namespace

std::string two_digits(double value) {
  if (!std::isfinite(value) || std::abs(value) < 1e-6) return "0";
  const int exponent = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double unit = std::pow(10.0, exponent - 1);
  const double rounded = std::round(value / unit) * unit;
  return fmt::format("{:.{}f}", rounded, exponent >= 1 ? 0 : 1 - exponent);
}

std::string mass_text(double kg, UnitSystem units) {
  const double amount = std::abs(kg);  // what is missing is told in the unit of what is there
  if (units == UnitSystem::Us) {
    if (amount < kKgPerPound) return two_digits(kg / kKgPerOunce) + " oz";
    return two_digits(kg / kKgPerPound) + " lb";
  }
  if (amount < 1.0) return two_digits(kg * 1000.0) + " g";
  return two_digits(kg) + " kg";
}

std::string seed_mass_text(double kg, UnitSystem units) {
  return mass_text(kg, kg < kLeastOunces * kKgPerOunce ? UnitSystem::Metric : units);
}

std::string length_text(double cm, UnitSystem units) {
  if (units == UnitSystem::Us) return two_digits(cm / units::kCmPerInch) + " in";
  return two_digits(cm) + " cm";
}

std::string side_text(double metres, UnitSystem units) {
  if (units == UnitSystem::Us) return fmt::format("{:.2g} ft", metres / units::kMPerFoot);
  return fmt::format("{:.2g} m", metres);
}

std::string area_text(double m2, UnitSystem units) {
  if (units == UnitSystem::Us) return two_digits(m2 / units::kM2PerSquareFoot) + " ft2";
  return two_digits(m2) + " m2";
}

std::string temperature_text(double celsius, UnitSystem units) {
  // + 0.0: never "-0"
  if (units == UnitSystem::Us) {
    return fmt::format("{:g} F", std::round(units::fahrenheit(celsius)) + 0.0);
  }
  return fmt::format("{:g} C", std::round(celsius) + 0.0);
}

std::string prose_text(std::string_view sentence, UnitSystem units) {
  if (units == UnitSystem::Metric) return std::string(sentence);
  std::string out;
  for (std::size_t at = 0; at < sentence.size();) {
    const bool starts = is_digit(sentence[at]) &&
                        (at == 0 || (!is_word(sentence[at - 1]) && sentence[at - 1] != '.'));
    if (starts) {
      const auto [amount, bytes] = us_amount(sentence.substr(at));
      out += amount;
      at += bytes;
      if (bytes > 0) continue;
    }
    out += sentence[at++];
  }
  return out;
}

std::string nitrogen_text(double kg_per_ha, const Bed& bed, UnitSystem units) {
  return mass_text((units::KgNPerHa(kg_per_ha) * bed.area).value(), units);
}

}  // namespace aftercrop::garden
