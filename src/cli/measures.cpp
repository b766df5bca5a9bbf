#include "cli/measures.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace aftercrop::cli {
namespace {

constexpr double kPoundKg = 0.45359237;
constexpr double kOunceG = 28.349523125;
constexpr double kSquareFootM2 = 0.09290304;
constexpr double kGramsPerKg = 1000.0;
constexpr double kLongestSeconds = 7.0 * 86400.0;

struct Figure {
  double value = 0.0;
  std::string_view unit;
};

/// A number above or at zero, blanks, and what follows.
std::optional<Figure> parse_figure(std::string_view text) {
  Figure figure;
  const char* last = text.data() + text.size();
  const auto [end, error] = std::from_chars(text.data(), last, figure.value);
  if (error != std::errc() || !std::isfinite(figure.value) || std::signbit(figure.value)) return {};
  figure.unit = text.substr(static_cast<std::size_t>(end - text.data()));
  while (!figure.unit.empty() && figure.unit.front() == ' ') figure.unit.remove_prefix(1);
  return figure;
}

}  // namespace

std::optional<double> parse_duration(std::string_view text) {
  const auto figure = parse_figure(text);
  if (!figure) return {};
  double seconds = 0.0;
  if (figure->unit == "s") {
    seconds = 1.0;
  } else if (figure->unit == "m" || figure->unit == "min") {
    seconds = 60.0;
  } else if (figure->unit == "h") {
    seconds = 3600.0;
  }
  const double total = figure->value * seconds;
  if (total <= 0.0 || total > kLongestSeconds) return {};
  return total;
}

std::optional<double> parse_percent(std::string_view text) {
  const auto figure = parse_figure(text);
  if (!figure || figure->unit != "%" || figure->value > 100.0) return {};
  return figure->value / 100.0;
}

std::string two_digits(double value) {
  if (value == 0.0) return "0";
  const double power = std::floor(std::log10(std::abs(value))) - 1.0;
  const double step = std::pow(10.0, power);
  const double rounded = std::round(value / step) * step + 0.0;
  const int decimals = power < 0.0 ? static_cast<int>(-power) : 0;
  std::string text = fmt::format("{:.{}f}", rounded, decimals);
  if (text.find('.') == std::string::npos) return text;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string mass_text(double kilograms, garden::UnitSystem units) {
  if (units == garden::UnitSystem::Us) {
    if (kilograms < kPoundKg) return two_digits(kilograms * kGramsPerKg / kOunceG) + " oz";
    return two_digits(kilograms / kPoundKg) + " lb";
  }
  if (kilograms < 1.0) return two_digits(kilograms * kGramsPerKg) + " g";
  return two_digits(kilograms) + " kg";
}

std::string amount_text(double amount, garden::WantUnit unit, garden::UnitSystem units) {
  switch (unit) {
    case garden::WantUnit::Kilograms:
      return mass_text(amount, units);
    case garden::WantUnit::Stems:
      return fmt::format("{:.0f} stems", amount);
    case garden::WantUnit::Plants:
      return fmt::format("{:.0f} plants", amount);
    case garden::WantUnit::SquareMetres:
      break;
  }
  if (units == garden::UnitSystem::Us) return two_digits(amount / kSquareFootM2) + " sq ft";
  return two_digits(amount) + " m2";
}

}  // namespace aftercrop::cli
