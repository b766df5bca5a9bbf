#pragma once

#include <chrono>
#include <string>

#include "aftercrop/sequencer/sequence.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// Where the search is: seconds, step, value, bound and gap, what share of the wants is met and
/// which are still short, the shortest first. At most `width` columns; crops that find no room are
/// counted.
[[nodiscard]] std::string progress_text(const sequencer::Progress& progress,
                                        const garden::Garden& garden,
                                        const catalogue::Catalogue& catalogue, int width);

/// Tells of a running search on standard error. On a terminal one line is drawn over; where there
/// is none, or no colour is wanted (a screen reader reads every line anew), a plain line is added
/// every ten seconds.
class ProgressLine {
 public:
  /// `garden` and `catalogue` must outlive it.
  ProgressLine(const Shared& shared, const garden::Garden& garden,
               const catalogue::Catalogue& catalogue);
  ~ProgressLine() { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  void show(const sequencer::Progress& progress);
  void clear();

 private:
  using Clock = std::chrono::steady_clock;
  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  bool drawn_ = false;
  bool wanted_ = false;
  bool redraws_ = false;
  Clock::time_point last_ = Clock::now();
};

}  // namespace aftercrop::cli
