#pragma once

#include <vector>

#include "sequencer/draw.h"
#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// Opens a few beds at once and fills them again, one after the other, for what is then still
/// wanted. Several such trials from the same plan run beside each other.
class Shake {
 public:
  /// Both must outlive it.
  Shake(const Pricing& pricing, const Objective& objective);

  /// One batch of trials; what makes the whole worth more is kept. True if anything did. The same
  /// on any number of threads.
  bool round(Assignment& plan);

 private:
  struct Trial {
    std::vector<std::size_t> beds;
    std::vector<double> tilt;  ///< factors on the prices that the beds see, one a supply row
    std::vector<Path> paths;   ///< found for the beds; empty = nothing better
    double value = 0.0;
  };
  [[nodiscard]] Trial draw_trial(std::size_t beds);
  void run(const Assignment& plan, const Totals& totals, Trial& trial) const;
  bool keep(Assignment& plan, Totals& totals, Trial& trial) const;

  const Pricing* pricing_;
  const Objective* objective_;
  Draw draw_{20270301};
};

}  // namespace aftercrop::sequencer
