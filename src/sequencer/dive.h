#pragma once

#include <functional>
#include <vector>

#include "sequencer/draw.h"
#include "sequencer/master.h"
#include "sequencer/repair.h"

namespace aftercrop::sequencer {

struct DiveOptions {
  int width = 8;        ///< labels kept a week when a dive asks for new paths
  int rounds = 1;       ///< price rounds after each fixing
  double share = 0.34;  ///< of the open beds that one fixing decides
  double noise = 0.0;   ///< 0 = the largest fractions first; 1 = nearly any order
};

/// From fractions of beds to whole ones: fixes what is nearly whole, asks for paths that fit what
/// is then left, and goes on until every bed has one.
class Dive {
 public:
  /// All must outlive it. `enough` ends the price rounds, not the fixing.
  Dive(Master& master, Pricing& pricing, const std::vector<BedClass>& classes,
       const Objective& objective, std::function<bool()> enough);

  [[nodiscard]] Assignment from_scratch(const DiveOptions& options, Draw& draw);

 private:
  void start();
  void fix(std::size_t column, int beds);
  void run(const DiveOptions& options, Draw& draw);
  bool fix_some(const DiveOptions& options, Draw& draw);
  void price(const DiveOptions& options);
  [[nodiscard]] Assignment assign() const;

  Master* master_;
  Pricing* pricing_;
  const std::vector<BedClass>* classes_;
  const Objective* objective_;
  std::function<bool()> enough_;
  std::vector<int> fixed_;  ///< beds, one a column
  std::vector<int> left_;   ///< beds without a path, one a class
  int open_ = 0;
};

}  // namespace aftercrop::sequencer
