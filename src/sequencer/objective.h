#pragma once

#include <utility>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/bed_ledger.h"
#include "aftercrop/rules/rule.h"
#include "aftercrop/sequencer/sequence.h"

namespace aftercrop::sequencer {

/// So many square metres' worth of a harvest that falls into one supply row.
using Supply = std::vector<std::pair<int, double>>;

/// Adds a stand's supply to a sum, which stays in order of rows.
void add_supply(Supply& sum, const Supply& more);

/// Harvest weeks of one crop in which the same wants are open.
struct SupplyRow {
  catalogue::CropId crop;
  calendar::WeekSpan weeks;
};

/// A want as the objective sees it, in square metres at typical yield.
struct WantRow {
  std::size_t want = 0;
  double amount_m2 = 0.0;
  double worth_per_m2 = 0.0;
  std::vector<int> supplies;  ///< rows that may serve it
};

/// The objective, and nothing else adds up worth: wants up to their amounts, less nitrogen bought
/// and leached, disease risk, bare winters, warnings, work over the hands there are, and changes of
/// a plan that stands.
class Objective {
 public:
  Objective(const garden::Garden& garden, const catalogue::Catalogue& catalogue);

  [[nodiscard]] const std::vector<SupplyRow>& supplies() const { return supplies_; }
  [[nodiscard]] const std::vector<WantRow>& wants() const { return wants_; }
  /// What stands begun before the seasons deliver, m2, one a supply row.
  [[nodiscard]] const std::vector<double>& given() const { return given_; }
  [[nodiscard]] double largest_bed_m2() const;
  /// Rows that a stand serves on so much land.
  [[nodiscard]] Supply supply_of(const ledger::StandSpec& spec, double area_m2) const;
  /// Worth of what is delivered to each supply row; earliest window first. `met_m2` = one a want.
  [[nodiscard]] double worth(const std::vector<double>& delivered_m2,
                             std::vector<double>* met_m2 = nullptr) const;
  /// What the next square metre of each supply row is worth, and how much of it is still wanted.
  struct Marginal {
    double worth_per_m2 = 0.0;
    double open_m2 = 0.0;
  };
  [[nodiscard]] std::vector<Marginal> marginal(const std::vector<double>& delivered_m2) const;

  /// Worth of a whole stand on so much land if all of it were wanted: what shares are taken of.
  [[nodiscard]] double stand_worth(catalogue::CropId crop, double area_m2) const;
  /// Cost of flows on so much land.
  void charge_flows(const ledger::StandOutcome& outcome, double area_m2, Value& value) const;
  /// Cost of what a stand risks and breaks; false where a required rule refuses it.
  [[nodiscard]] bool charge_breaches(const rules::Breaches& breaches, double worth,
                                     Value& value) const;
  void charge_disease(const ledger::BedState& before, const ledger::Stand& stand, double worth,
                      Value& value) const;
  /// Cost of all stands of the plan that is being changed, had none of them stayed.
  [[nodiscard]] double left_behind() const;
  /// Cost of a stand that the earlier plan does not have; one that stays earns as much back of
  /// what leaving it would cost.
  [[nodiscard]] double charge_change(double worth) const {
    return garden_->costs.change_share * worth;
  }
  /// Hours over the hands there are, priced. `hours` = one a week of the seasons.
  [[nodiscard]] double charge_work(const std::vector<double>& hours) const;
  [[nodiscard]] double hands(std::size_t season_week) const;
  [[nodiscard]] bool work_counts() const { return !hands_.empty(); }

 private:
  void build_rows();
  void count_history();
  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  std::vector<SupplyRow> supplies_;
  std::vector<WantRow> wants_;
  std::vector<double> given_;          ///< m2 that stands begun before the seasons deliver
  std::vector<double> worth_by_crop_;  ///< highest want worth per m2, 0 = unwanted
  std::vector<double> hands_;          ///< hours a week of the seasons; empty = not said
};

/// Hours of a stand by week of the seasons: 30 % at the start, 20 % even, 40 % over the harvest,
/// 10 % at the end (common practice). First member = week, from the start of the seasons.
[[nodiscard]] std::vector<std::pair<int, double>> hours_of(const catalogue::Crop& crop,
                                                           const ledger::StandSpec& spec,
                                                           double area_m2,
                                                           const calendar::WeekSpan& seasons);

}  // namespace aftercrop::sequencer
