#pragma once

#include <optional>
#include <vector>

#include "bench/general/bed_rows.h"

namespace aftercrop::bench {

/// A garden as one mixed integer program: each bed's rows, wants as flows from supply rows, work.
/// Every bed is said by itself, alike ones too: a flow of several beds could not keep their breaks.
class GardenRows {
 public:
  GardenRows(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
             const ledger::SiteClimates& climates);

  [[nodiscard]] Program& program() { return program_; }
  /// What has to be added to the program's profits to have a plan's value.
  [[nodiscard]] double constant() const { return constant_; }
  [[nodiscard]] garden::Plan plan_of(const std::vector<double>& columns) const;
  /// Fixes all stands as a plan has them. False if it has one that the program does not know.
  bool fix(const garden::Plan& plan);

 private:
  struct Bed {
    garden::BedId bed;
    const sequencer::BedClass* beds;
    BedRows rows;
  };
  void add_wants(const std::vector<std::vector<std::pair<int, double>>>& supply);
  void add_work();

  const garden::Garden* garden_;
  sequencer::Objective objective_;
  std::vector<sequencer::BedClass> classes_;
  Program program_;
  std::vector<Bed> beds_;
  double constant_ = 0.0;
};

}  // namespace aftercrop::bench
