#include "load/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercrop/load/names.h"
#include "load/measure_units.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using diagnostic::Source;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

/// Where the number of "12kg" ends.
std::size_t number_length(std::string_view text) {
  std::size_t i = text.starts_with('-') ? 1 : 0;
  while (i < text.size() && ((text[i] >= '0' && text[i] <= '9') || text[i] == '.')) ++i;
  const bool exponent = i > 0 && i + 1 < text.size() && (text[i] == 'e' || text[i] == 'E') &&
                        text[i + 1] >= '0' && text[i + 1] <= '9';
  if (!exponent) return i;
  ++i;
  while (i < text.size() && text[i] >= '0' && text[i] <= '9') ++i;
  return i;
}

/// Half of the last digit: 0.5 for "14", 0.05 for "14.0".
double half_of_last_digit(std::string_view number) {
  const std::size_t point = number.find('.');
  if (point == std::string_view::npos) return 0.5;
  return 0.5 * std::pow(10.0, -static_cast<double>(number.size() - point - 1));
}

std::string with_units(std::string_view number, std::string_view readings) {
  std::string text;
  for (std::size_t start = 0; start < readings.size();) {
    const std::size_t end = std::min(readings.find(',', start), readings.size());
    if (!text.empty()) text += ", ";
    text += fmt::format("{} {}", number, trimmed(readings.substr(start, end - start)));
    start = end + 1;
  }
  return text;
}

bool accepts(const Ask& ask, Dimension dimension) {
  return std::find(ask.dimensions.begin(), ask.dimensions.end(), dimension) != ask.dimensions.end();
}

std::vector<std::string> unit_names_for(const Ask& ask) {
  std::vector<std::string> names;
  for (const std::string& name : all_unit_names()) {
    const UnitRow* unit = find_unit(name);
    if (unit != nullptr && accepts(ask, unit->dimension)) names.push_back(name);
  }
  return names;
}

void report_number(std::string_view text, const Ask& ask, const Source& source, Diagnostics& out) {
  const bool comma = text.find(',') != std::string_view::npos;
  out.error("not-a-number",
            fmt::format("{} is \"{}\", which does not start with a number", ask.what, text), source,
            comma ? std::string("write the decimal point as a point, and no thousands mark")
                  : fmt::format("write a number and a unit: {}", ask.readings));
}

const UnitRow* unit_for(std::string_view number, std::string_view word, const Ask& ask,
                        const Source& source, Diagnostics& out) {
  if (word.empty()) {
    out.error("missing-unit", fmt::format("{} is {} without a unit", ask.what, number), source,
              fmt::format("it could be {}", with_units(number, ask.readings)));
    return nullptr;
  }
  const UnitRow* unit = find_unit(word);
  if (unit == nullptr) {
    const bool comma = word.front() == ',';
    const auto near = did_you_mean(word, unit_names_for(ask));
    const std::string help =
        comma  ? std::string("write the decimal point as a point, and no thousands mark")
        : near ? fmt::format("did you mean \"{}\"? Units here: {}", *near, ask.readings)
               : fmt::format("units here: {}", ask.readings);
    out.error("unknown-unit", fmt::format("\"{}\" is not a unit", word), source, help);
    return nullptr;
  }
  if (!accepts(ask, unit->dimension)) {
    out.error("wrong-unit", fmt::format("{} cannot be in {}", ask.what, word), source,
              fmt::format("units here: {}", ask.readings));
    return nullptr;
  }
  return unit;
}

}  // namespace

std::optional<Measure> parse_measure(std::string_view text, const Ask& ask, const Source& source,
                                     Diagnostics& out) {
  text = trimmed(text);
  const std::size_t length = number_length(text);
  const std::string_view number = text.substr(0, length);
  const auto value = plain_number(number);
  if (!value) {
    report_number(text, ask, source, out);
    return {};
  }
  const UnitRow* unit = unit_for(number, trimmed(text.substr(length)), ask, source, out);
  if (unit == nullptr) return {};
  const Measure measure{*value * unit->factor + unit->offset, unit->dimension,
                        half_of_last_digit(number) * unit->factor, *value};
  if (!check_range(measure.value, base_unit(unit->dimension), ask.limits, ask.what, source, out)) {
    return {};
  }
  return measure;
}

std::optional<Measure> read_measure(const Node& node, const Ask& ask, Diagnostics& out) {
  const auto text = read_text(node, ask.what, out);
  if (!text) return {};
  return parse_measure(*text, ask, node.source, out);
}

}  // namespace aftercrop::load
