#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/general/program.h"

namespace aftercrop::bench {

struct Solved {
  std::string status;           ///< the solver's own words
  std::optional<double> value;  ///< of the best solution, a greatest sum of profits
  std::optional<double> bound;  ///< no solution is better
  std::vector<double> columns;  ///< empty without a solution
  double seconds = 0.0;
  std::optional<double> seconds_to_gap;  ///< until the gap first was 1 %
};

/// Writes the program to `file`, lets cbc (Debian package coinor-cbc) work on it for at most so
/// many seconds on `threads` threads. Empty if cbc could not be run.
[[nodiscard]] std::optional<Solved> solve(const Program& program, const std::string& file,
                                          double within_seconds, int threads);

}  // namespace aftercrop::bench
