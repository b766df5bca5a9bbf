#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "aftercrop/garden/garden.h"

namespace aftercrop::cli {

/// Seconds of "60s", "2m" or "1h". Empty for anything else: a bare number could mean two things.
[[nodiscard]] std::optional<double> parse_duration(std::string_view text);

/// The share of "1%" or "0.5 %": 0.01, 0.005. Empty for anything else.
[[nodiscard]] std::optional<double> parse_percent(std::string_view text);

/// Bytes of "500MB" or "2 GB". Empty for anything else.
[[nodiscard]] std::optional<double> parse_memory(std::string_view text);

/// "12", "3.4", "0.56": two digits, no more than a grower can use.
[[nodiscard]] std::string two_digits(double value);

/// A mass as the garden prints it: kg or lb, g or oz where it is small.
[[nodiscard]] std::string mass_text(double kilograms, garden::UnitSystem units);

/// An amount in a want's own unit: "220 lb", "20 plants", "3 m2".
[[nodiscard]] std::string amount_text(double amount, garden::WantUnit unit,
                                      garden::UnitSystem units);

}  // namespace aftercrop::cli
