#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cli/plan_run.h"

namespace aftercrop::cli {

/// One line of the garden's wants, its repeats together.
struct WantLine {
  catalogue::CropId crop;
  garden::WantUnit unit = garden::WantUnit::Kilograms;
  double amount = 0.0;
  double met = 0.0;
  calendar::WeekSpan window;  ///< of its first year
  std::string why;            ///< why it is short; empty when met
};

/// In the order of the garden file.
[[nodiscard]] std::vector<WantLine> want_lines(const Planned& planned);

/// What a plan gives and lacks, in a grower's words.
[[nodiscard]] std::string plan_summary(const Planned& planned);

/// A heading and its text, folded beside it to the width of the terminal.
[[nodiscard]] std::string summary_row(std::string_view head, std::string_view text);

/// The objective by term, how far it is proven, and how much work the search was.
[[nodiscard]] std::string plan_stats(const Planned& planned);

}  // namespace aftercrop::cli
