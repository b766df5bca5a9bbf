#pragma once

#include <chrono>

#include "aftercrop/sequencer/sequence.h"

namespace aftercrop::cli {

/// One line on the terminal that is drawn over; nothing where there is no terminal.
class ProgressLine {
 public:
  explicit ProgressLine(bool wanted);
  ~ProgressLine() { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  void show(const sequencer::Progress& progress);
  void clear();

 private:
  using Clock = std::chrono::steady_clock;
  bool drawn_ = false;
  bool wanted_ = false;
  Clock::time_point last_;
};

}  // namespace aftercrop::cli
