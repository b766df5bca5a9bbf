#pragma once

#include <map>
#include <memory>
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
  [[nodiscard]] double most_m2(const Obstacles& obstacles) { return most_m2(obstacles, kAll); }
  [[nodiscard]] bool reaches(const Obstacles& obstacles, double m2) {
    return most_m2(obstacles, m2) >= m2;
  }
  /// The greatest share of a bed that one stand gives to the want, whatever forbids it.
  [[nodiscard]] double best_share() const { return best_share_; }
  /// Rules that refuse any stand of it somewhere.
  [[nodiscard]] const std::set<garden::RuleId>& refusing() const { return refusing_; }

 private:
  static constexpr double kAll = 1e300;
  struct Stands;
  using ByKind = std::map<const BedKind*, Stands>;
  /// Stops counting once there is enough.
  [[nodiscard]] double most_m2(const Obstacles& obstacles, double enough);
  [[nodiscard]] double bed_m2(std::size_t bed_class, garden::BedId bed, const Obstacles& obstacles);
  void prepare_fleece();
  [[nodiscard]] const climate::SiteClimate& fleece_site(const BedClass& beds);

  const WantRow* want_;
  const std::vector<BedClass>* classes_;
  const Objective* objective_;
  const Assignment* plan_;
  ByKind as_is_;
  ByKind fleece_;  ///< the same under fleece, made when first asked for
  std::map<garden::Shelter, std::unique_ptr<climate::SiteClimate>> fleece_sites_;
  std::vector<std::unique_ptr<ledger::BedLedger>> fleece_ledgers_;  ///< one a class
  std::set<garden::RuleId> refusing_;
  double best_share_ = 0.0;
};

}  // namespace aftercrop::sequencer
