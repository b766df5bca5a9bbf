#include "sequencer/master.h"

#include <algorithm>
#include <cmath>
#include <coin/ClpSimplex.hpp>
#include <coin/CoinError.hpp>

namespace aftercrop::sequencer {

// Rows: supply rows (delivered to wants - grown <= 0), wants (delivered <= amount), classes
// (= beds), weeks of work (hours - overtime <= hands). The worth is minimised with its sign turned.
struct Master::Lp {
  ClpSimplex clp;
  int supplies = 0;
  int wants = 0;
  int classes = 0;
  int weeks = 0;
  int first_path = 0;  ///< column of the first path

  [[nodiscard]] int want_row(int want) const { return supplies + want; }
  [[nodiscard]] int class_row(int bed_class) const { return supplies + wants + bed_class; }
  [[nodiscard]] int work_row(int week) const { return supplies + wants + classes + week; }
  void add_column(double cost, const std::vector<int>& rows, const std::vector<double>& values) {
    clp.addColumn(static_cast<int>(rows.size()), rows.data(), values.data(), 0.0, COIN_DBL_MAX,
                  cost);
  }
};

Master::Master(const Objective& objective, const std::vector<BedClass>& classes,
               const std::vector<double>& beds)
    : objective_(&objective), places_(classes.size()), lp_(std::make_unique<Lp>()) {
  Lp& lp = *lp_;
  lp.clp.setLogLevel(0);
  lp.supplies = static_cast<int>(objective.supplies().size());
  lp.wants = static_cast<int>(objective.wants().size());
  lp.classes = static_cast<int>(classes.size());
  const auto& garden = classes.empty() ? garden::Garden{} : classes.front().ledger->garden();
  lp.weeks = objective.work_counts() ? garden.seasons.length().count() : 0;
  const int rows = lp.work_row(lp.weeks);
  std::vector<double> lower(static_cast<std::size_t>(rows), -COIN_DBL_MAX);
  std::vector<double> upper(static_cast<std::size_t>(rows), 0.0);
  const auto at = [](int row) { return static_cast<std::size_t>(row); };
  for (int s = 0; s < lp.supplies; ++s) upper[at(s)] = objective.given()[at(s)];
  for (int k = 0; k < lp.wants; ++k) upper[at(lp.want_row(k))] = objective.wants()[at(k)].amount_m2;
  for (int g = 0; g < lp.classes; ++g) {
    lower[at(lp.class_row(g))] = beds[at(g)];
    upper[at(lp.class_row(g))] = lower[at(lp.class_row(g))];
  }
  for (int w = 0; w < lp.weeks; ++w) upper[at(lp.work_row(w))] = objective.hands(at(w));
  const std::vector<CoinBigIndex> starts(static_cast<std::size_t>(rows) + 1, 0);
  lp.clp.addRows(rows, lower.data(), upper.data(), starts.data(), nullptr, nullptr);
  for (int k = 0; k < lp.wants; ++k) {
    const WantRow& want = objective.wants()[at(k)];
    for (const int supply : want.supplies) {
      lp.add_column(-want.worth_per_m2, {supply, lp.want_row(k)}, {1.0, 1.0});
    }
  }
  for (int w = 0; w < lp.weeks; ++w) {
    lp.add_column(garden.costs.work_per_hour, {lp.work_row(w)}, {-1.0});
  }
  lp.first_path = lp.clp.getNumCols();
}

Master::~Master() = default;

std::pair<std::size_t, bool> Master::add(const Column& column) {
  const auto [known, fresh] =
      places_[column.bed_class].try_emplace(column.path.choices, columns_.size());
  if (!fresh) return {known->second, false};
  std::vector<int> rows = {lp_->class_row(static_cast<int>(column.bed_class))};
  std::vector<double> values = {1.0};
  for (const auto& [row, m2] : column.path.supply) {
    rows.push_back(row);
    values.push_back(-m2);
  }
  for (const auto& [week, hours] : column.path.hours) {
    if (week >= lp_->weeks) continue;
    rows.push_back(lp_->work_row(week));
    values.push_back(hours);
  }
  lp_->add_column(-column.path.costs.total(), rows, values);
  columns_.push_back(column);
  return {known->second, true};
}

bool Master::solve() {
  try {
    lp_->clp.primal(columns_.size() > 1 ? 1 : 0);
  } catch (const CoinError&) {
    return false;
  }
  return lp_->clp.status() == 0;
}

double Master::value() const { return -lp_->clp.objectiveValue(); }

Prices Master::prices() const {
  // Rounded to a fixed scale, so that what is computed from them does not hang on the last bits.
  constexpr double kScale = 1024.0;
  const double* duals = lp_->clp.getRowPrice();
  const auto price = [&](int row) {
    return std::max(0.0, std::round(-duals[row] * kScale) / kScale);
  };
  Prices prices;
  for (int s = 0; s < lp_->supplies; ++s) prices.supply.push_back(price(s));
  for (int w = 0; w < lp_->weeks; ++w) prices.work.push_back(price(lp_->work_row(w)));
  return prices;
}

std::vector<double> Master::class_prices() const {
  std::vector<double> prices;
  for (int g = 0; g < lp_->classes; ++g) {
    prices.push_back(-lp_->clp.getRowPrice()[lp_->class_row(g)]);
  }
  return prices;
}

std::vector<double> Master::use() const {
  const double* solution = lp_->clp.getColSolution();
  std::vector<double> use;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    use.push_back(solution[lp_->first_path + static_cast<int>(i)]);
  }
  return use;
}

void Master::fix(std::size_t column, int beds) {
  lp_->clp.setColumnLower(lp_->first_path + static_cast<int>(column), beds);
}

void Master::release_all() {
  for (std::size_t i = 0; i < columns_.size(); ++i) fix(i, 0);
}

}  // namespace aftercrop::sequencer
