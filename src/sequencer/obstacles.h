#pragma once

#include <set>
#include <vector>

#include "sequencer/repair.h"

namespace aftercrop::sequencer {

/// What may keep a want's crop out. Rules count one by one.
struct Obstacles {
  bool other_wants = true;         ///< beds are taken by the plan's other stands
  bool history = true;             ///< what stood in the beds and the diseases they carry
  bool season = true;              ///< nothing is covered with fleece that is not now
  std::set<garden::RuleId> rules;  ///< required ones that refuse
};

/// Land for one want under any set of obstacles: each bed gives the best stand that it may hold.
class Land {
 public:
  /// All references must outlive it.
  Land(const WantRow& want, const std::vector<BedClass>& classes, const Objective& objective,
       const Assignment& plan);
  ~Land();
  Land(const Land&) = delete;
  Land& operator=(const Land&) = delete;

  /// Square metres' worth of the want that the garden could give.
  [[nodiscard]] double most_m2(const Obstacles& obstacles);
  /// The greatest share of a bed that one stand gives to the want, whatever forbids it.
  [[nodiscard]] double best_share() const { return best_share_; }
  /// Rules that refuse any stand of it somewhere.
  [[nodiscard]] const std::set<garden::RuleId>& refusing() const { return refusing_; }

 private:
  struct Stands;
  [[nodiscard]] double bed_m2(garden::BedId bed, const Stands& stands, const Obstacles& obstacles);
  void prepare_fleece();

  const WantRow* want_;
  const std::vector<BedClass>* classes_;
  const Objective* objective_;
  const Assignment* plan_;
  std::vector<Stands> as_is_;   ///< one a class
  std::vector<Stands> fleece_;  ///< the same under fleece, made when first asked for
  std::set<garden::RuleId> refusing_;
  double best_share_ = 0.0;
};

}  // namespace aftercrop::sequencer
