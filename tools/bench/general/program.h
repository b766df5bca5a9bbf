#pragma once

#include <string>
#include <utility>
#include <vector>

namespace aftercrop::bench {

enum class Sense { AtMost, AtLeast, Equal };

/// A mixed integer program: the greatest sum of profits. Columns are bounded below by 0.
class Program {
 public:
  static constexpr double kNoLimit = 1e30;

  /// Returns the column's place. A whole column takes whole numbers only.
  int column(double profit, double upper = kNoLimit, bool whole = false);
  int row(Sense sense, double limit);
  void add(int row, int column, double coefficient);
  void raise_limit(int row, double by) { limits_[static_cast<std::size_t>(row)] += by; }
  void fix(int column, double value);

  [[nodiscard]] std::size_t columns() const { return profits_.size(); }
  [[nodiscard]] std::size_t rows() const { return limits_.size(); }
  [[nodiscard]] std::size_t whole_columns() const;
  [[nodiscard]] std::size_t entries() const;

  /// The program in free MPS form, as a least sum of costs (the profits with their signs turned).
  [[nodiscard]] std::string mps() const;

 private:
  std::vector<double> profits_;
  std::vector<double> lowers_;
  std::vector<double> uppers_;
  std::vector<char> whole_;
  std::vector<std::vector<std::pair<int, double>>> entries_;  ///< one list a column
  std::vector<Sense> senses_;
  std::vector<double> limits_;
};

}  // namespace aftercrop::bench
