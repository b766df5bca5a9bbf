#pragma once

#include <vector>

#include "aftercrop/sequencer/certificate.h"
#include "sequencer/relaxed.h"

namespace aftercrop::sequencer {

/// The best that a bed could still earn from a week on at some prices, never below the truth: the
/// best path over the relaxed arcs, family breaks priced by fees.
///
/// Fees: a stand of a group in season y pays the group's fees of the seasons y to y + break, shared
/// among the most stands that one season can hold. No path that keeps the breaks pays one of them
/// more than once, so what a path earns less what it paid, plus all fees, is no less than what it
/// earns. Subgradient steps look for the fees that give the lowest bound.
class Completion {
 public:
  /// `relaxed` must outlive it.
  Completion(const Relaxed& relaxed, Relaxed::Past past);

  /// Works the values out for these profits (one an arc, as `arc_profits` gives them) at the fees
  /// that stand, and lets `steps` steps lower the bound. `target` = what some path is known to
  /// earn.
  void solve(const std::vector<double>& profits, int steps, double target);

  /// Arcs of the best relaxed path at the profits of the last `solve`.
  [[nodiscard]] std::vector<std::size_t> best_arcs(const std::vector<double>& profits) const;
  /// No path of the class earns more at the profits of the last `solve`.
  [[nodiscard]] double bound() const { return bound_; }
  /// No continuation of a path that stands so at a node earns more.
  [[nodiscard]] double ahead(int node, const Relaxed::Standing& standing) const;
  /// What a path that stands so may still pay, one a season from the first.
  void fees_by_season(const Relaxed::Standing& standing, std::vector<double>& fees) const;
  /// No continuation that begins with this arc earns more, its own profit left out; below any
  /// number if the arc is refused. `fees` = of the standing, by season.
  [[nodiscard]] double ahead_through(std::size_t arc, const Relaxed::Standing& standing,
                                     const std::vector<double>& fees) const;
  /// The fees in use that are not zero.
  [[nodiscard]] std::vector<Certificate::Fee> fees() const;
  [[nodiscard]] const Relaxed& relaxed() const { return *relaxed_; }

 private:
  [[nodiscard]] std::size_t place(std::size_t group, int season) const;
  [[nodiscard]] double fee_of(const Relaxed::Key& key) const;
  [[nodiscard]] double fees_of(std::size_t group, int last, int season) const;
  [[nodiscard]] double total() const;
  [[nodiscard]] double value(int node, Readiness readiness) const;
  void sweep(const std::vector<double>& profits);
  void count_fees(const std::vector<double>& profits, std::vector<double>& paid) const;
  void descend(const std::vector<double>& profits, int steps, double target);
  void sum_fees();

  const Relaxed* relaxed_;
  Relaxed::Past past_;
  std::vector<double> values_;  ///< [node][readiness]
  std::vector<double> fee_;     ///< [group][season - first season]
  std::vector<double> paid_;    ///< by key, at the fees
  std::vector<double> from_;    ///< [group][season]: sum of fees from there on
  double bound_ = 0.0;
};

}  // namespace aftercrop::sequencer
