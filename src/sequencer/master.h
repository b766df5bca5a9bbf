#pragma once

#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// A path offered to a class.
struct Column {
  std::size_t bed_class = 0;
  Path path;
};

/// The linear master: so much of each class's beds on each path, so much of each supply row to
/// each want, overtime by week. Prices come from its duals; whole numbers from fixing columns.
class Master {
 public:
  /// `beds` = how many of each class are to be given paths.
  Master(const Objective& objective, const std::vector<BedClass>& classes,
         const std::vector<double>& beds);
  ~Master();
  Master(const Master&) = delete;
  Master& operator=(const Master&) = delete;

  /// Place of the column, and whether it is new.
  std::pair<std::size_t, bool> add(const Column& column);
  /// False if the solver failed.
  bool solve();
  [[nodiscard]] double value() const;
  [[nodiscard]] Prices prices() const;
  /// What the columns of each class earn at most at the present prices.
  [[nodiscard]] std::vector<double> class_prices() const;
  [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }
  /// Share of beds on each column.
  [[nodiscard]] std::vector<double> use() const;
  /// At least `beds` of the class on this column from now on.
  void fix(std::size_t column, int beds);
  void release_all();
  /// Adds roundings that the fractions of the last `solve` break; false if there is none.
  bool round_wants();
  /// Takes back those that the last `round_wants` added.
  void drop_last_roundings();

 private:
  struct Lp;
  [[nodiscard]] double counted(const Rounding& rounding, const Column& column) const;
  [[nodiscard]] std::optional<Rounding> most_broken(std::size_t want, double met) const;
  void add_row(const Rounding& rounding);
  const Objective* objective_;
  const std::vector<BedClass>* classes_;
  std::vector<Rounding> roundings_;
  std::size_t last_roundings_ = 0;  ///< of them, added together at last
  std::vector<Column> columns_;
  std::vector<std::map<std::vector<int>, std::size_t>> places_;  ///< by class and choices
  std::unique_ptr<Lp> lp_;
};

}  // namespace aftercrop::sequencer
