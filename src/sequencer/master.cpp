#include "sequencer/master.h"

#include <algorithm>
#include <cmath>
#include <coin/ClpSimplex.hpp>
#include <coin/CoinError.hpp>

namespace aftercrop::sequencer {

namespace {

// Prices and units are rounded to a fixed scale, so that what is computed from them does not hang
// on the last bits.
constexpr double kScale = 1024.0;

}  // namespace

// Rows: supply rows (delivered to wants - grown <= 0), wants (delivered <= amount), classes
// (= beds), weeks of work (hours - overtime <= hands). The worth is minimised with its sign turned.
struct Master::Lp {
  ClpSimplex clp;
  int supplies = 0;
  int wants = 0;
  int classes = 0;
  int weeks = 0;
  int rounding_rows = 0;   ///< first row of a rounding
  int first_path = 0;      ///< column of the first path
  std::vector<int> flows;  ///< by want: column of its first flow

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
    : objective_(&objective),
      classes_(&classes),
      places_(classes.size()),
      lp_(std::make_unique<Lp>()) {
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
    lp.flows.push_back(lp.clp.getNumCols());
    for (const int supply : want.supplies) {
      lp.add_column(-want.worth_per_m2, {supply, lp.want_row(k)}, {1.0, 1.0});
    }
  }
  for (int w = 0; w < lp.weeks; ++w) {
    lp.add_column(garden.costs.work_per_hour, {lp.work_row(w)}, {-1.0});
  }
  lp.first_path = lp.clp.getNumCols();
  lp.rounding_rows = rows;
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
  for (std::size_t i = 0; i < roundings_.size(); ++i) {
    const double m2 = counted(roundings_[i], column);
    if (m2 == 0.0) continue;
    rows.push_back(lp_->rounding_rows + static_cast<int>(i));
    values.push_back(m2);
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
  const double* duals = lp_->clp.getRowPrice();
  const auto price = [&](int row) {
    return std::max(0.0, std::round(-duals[row] * kScale) / kScale);
  };
  Prices prices;
  for (int s = 0; s < lp_->supplies; ++s) prices.supply.push_back(price(s));
  for (int w = 0; w < lp_->weeks; ++w) prices.work.push_back(price(lp_->work_row(w)));
  for (std::size_t i = 0; i < roundings_.size(); ++i) {
    const double dual = duals[lp_->rounding_rows + static_cast<int>(i)];
    prices.roundings.emplace_back(roundings_[i], std::max(0.0, std::round(dual * kScale) / kScale));
  }
  return prices;
}

double Master::counted(const Rounding& rounding, const Column& column) const {
  double m2 = 0.0;
  for (const int place : column.path.choices) {
    const Choice& choice = (*classes_)[column.bed_class].choices()[static_cast<std::size_t>(place)];
    if (!choice.supply.empty()) m2 += rounding.counted(choice.supply);
  }
  return m2;
}

std::optional<Rounding> Master::most_broken(std::size_t want, double met) const {
  constexpr double kBroken = 1e-3;  // of a square metre
  const WantRow& row = objective_->wants()[want];
  const Rounding any = rounding_of(*objective_, want, 1.0);
  const double* solution = lp_->clp.getColSolution();
  std::vector<std::pair<double, double>> stands;  // m2 that one gives, beds on it
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const double use = solution[lp_->first_path + static_cast<int>(i)];
    if (use < 1e-9) continue;
    for (const int place : columns_[i].path.choices) {
      const double m2 = any.portion(
          (*classes_)[columns_[i].bed_class].choices()[static_cast<std::size_t>(place)].supply);
      if (m2 > 1e-6) stands.emplace_back(m2, use);
    }
  }
  std::optional<Rounding> worst;
  double most = kBroken;
  for (const auto& [m2, beds] : stands) {
    const double unit = std::round(m2 * kScale) / kScale;
    if (unit <= 0.0) continue;
    const Rounding one = rounding_of(*objective_, want, unit);
    double sum = row.amount_m2 - met;
    for (const auto& [other, use] : stands) sum += use * one.counted(other);
    if (one.least - sum <= most) continue;
    most = one.least - sum;
    worst = one;
  }
  return worst;
}

bool Master::round_wants() {
  const double* solution = lp_->clp.getColSolution();
  std::vector<double> met;
  for (std::size_t k = 0; k < objective_->wants().size(); ++k) {
    double sum = 0.0;
    for (std::size_t i = 0; i < objective_->wants()[k].supplies.size(); ++i) {
      sum += solution[lp_->flows[k] + static_cast<int>(i)];
    }
    met.push_back(sum);
  }
  std::vector<Rounding> found;
  for (std::size_t k = 0; k < met.size(); ++k) {
    if (const auto one = most_broken(k, met[k])) found.push_back(*one);
  }
  for (const Rounding& one : found) add_row(one);
  last_roundings_ = found.size();
  return !found.empty();
}

void Master::drop_last_roundings() {
  std::vector<int> rows;
  for (; last_roundings_ > 0; --last_roundings_) {
    roundings_.pop_back();
    rows.push_back(lp_->rounding_rows + static_cast<int>(roundings_.size()));
  }
  lp_->clp.deleteRows(static_cast<int>(rows.size()), rows.data());
}

void Master::add_row(const Rounding& rounding) {
  std::vector<int> columns;
  std::vector<double> values;
  for (std::size_t i = 0; i < rounding.supplies.size(); ++i) {
    columns.push_back(lp_->flows[rounding.want] + static_cast<int>(i));
    values.push_back(-1.0);
  }
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const double m2 = counted(rounding, columns_[i]);
    if (m2 == 0.0) continue;
    columns.push_back(lp_->first_path + static_cast<int>(i));
    values.push_back(m2);
  }
  const double wanted = objective_->wants()[rounding.want].amount_m2;
  lp_->clp.addRow(static_cast<int>(columns.size()), columns.data(), values.data(),
                  rounding.least - wanted, COIN_DBL_MAX);
  roundings_.push_back(rounding);
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
