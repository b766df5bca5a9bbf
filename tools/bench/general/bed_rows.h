#pragma once

#include <array>
#include <map>
#include <vector>

#include "bench/general/program.h"
#include "sequencer/classes.h"

namespace aftercrop::bench {

/// One bed's part of the program.
///
/// Said exactly: the path of the bed through its weeks; what the rules say of each stand after the
/// bed's own past; family breaks and host returns between planned stands (rows of season-years);
/// never-free, plant-back and immobilisation (pairs of a stand and what starts soon after it);
/// legume-before-heavy-feeder (three layers of the graph: a legume stood last, stood last but one,
/// or neither; and a legume within a year); bare winter weeks; work.
/// Said linearly: nitrogen bought and leached by a stand, as it would be on the bed left idle until
/// then. Left out: what a planned stand leaves to the next (residue and mineral nitrogen, loads of
/// disease raised by hosts and lowered by biofumigants).
class BedRows {
 public:
  BedRows(const sequencer::BedClass& beds, const sequencer::Objective& objective, Program& program);

  /// Stands of the bed and the column that is 1 where it is taken, one a choice; -1 = never.
  [[nodiscard]] const std::vector<int>& taken() const { return taken_; }
  /// Costs that the bed has whatever is planted: washed out of idle ground.
  [[nodiscard]] double unavoidable() const { return unavoidable_; }

 private:
  static constexpr int kLayers = 3;
  /// What a stand costs in the bed left idle until it starts; impossible where a rule refuses it.
  struct Alone {
    bool possible = true;
    bool needs_legume = false;  ///< the legume rule speaks of it
    double cost = 0.0;
  };
  /// Columns of one kind of planting by season: at most one occupation a season, however many
  /// stands it has.
  using BySeason = std::map<int, int>;

  void judge_alone();
  [[nodiscard]] Alone alone(const sequencer::Choice& choice, const ledger::BedState& idle) const;
  void add_flow();
  void add_legume_age();
  void add_waits();
  void add_breaks();
  void add_returns();
  void add_bare_weeks();
  [[nodiscard]] bool credits(const ledger::PastStand& past) const;
  [[nodiscard]] int season_column(const std::vector<std::size_t>& stands);
  void forbid_or_charge(const std::vector<std::pair<int, int>>& pairs, garden::Setting setting,
                        double cost);
  void relate(const BySeason& earlier, const std::map<catalogue::CropId, BySeason>& later,
              catalogue::Break needed, garden::RuleId rule);
  [[nodiscard]] garden::Setting setting(garden::RuleId rule, int level = 0) const;

  const sequencer::BedClass* beds_;
  const sequencer::Objective* objective_;
  Program* program_;
  garden::Setting legume_setting_;
  std::vector<Alone> alone_;
  std::vector<char> gives_credit_;  ///< a legume that feeds a heavy feeder
  std::vector<int> taken_;
  std::vector<std::array<int, kLayers>> by_layer_;  ///< columns of a choice
  std::map<int, std::vector<int>> idle_;            ///< columns by week from the first
  std::vector<double> idle_leached_;                ///< price of a week's leaching, idle
  double unavoidable_ = 0.0;
};

}  // namespace aftercrop::bench
