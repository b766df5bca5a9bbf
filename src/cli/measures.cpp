#include "cli/measures.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "aftercrop/garden/measure_text.h"

namespace aftercrop::cli {
namespace {

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

/// A quantity without the zeros that end its number: "6 lb" of "6.0 lb".
std::string trimmed(const std::string& quantity) {
  const std::size_t end = std::min(quantity.find(' '), quantity.size());
  std::string number = quantity.substr(0, end);
  if (number.find('.') != std::string::npos) {
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
  }
  return number + quantity.substr(end);
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

std::optional<double> parse_memory(std::string_view text) {
  const auto figure = parse_figure(text);
  if (!figure || figure->value <= 0.0) return {};
  if (figure->unit == "MB") return figure->value * 1e6;
  if (figure->unit == "GB") return figure->value * 1e9;
  return {};
}

std::string two_digits(double value) { return trimmed(garden::two_digits(value)); }

std::string mass_text(double kilograms, garden::UnitSystem units) {
  return trimmed(garden::mass_text(kilograms, units));
}

std::string amount_text(double amount, garden::WantUnit unit, garden::UnitSystem units) {
  switch (unit) {
    case garden::WantUnit::Kilograms:
      return cli::mass_text(amount, units);
    case garden::WantUnit::Stems:
      return fmt::format("{:.0f} stems", amount);
    case garden::WantUnit::Plants:
      return fmt::format("{:.0f} plants", amount);
    case garden::WantUnit::SquareMetres:
      break;
  }
  return trimmed(garden::area_text(amount, units));
}

}  // namespace aftercrop::cli
