#pragma once

#include <array>
#include <string>
#include <vector>

#include "breaks.h"

namespace aftercrop::verifier {

/// What a bed can earn at most, without its nitrogen, diseases, waits and bare weeks: paths of
/// stands that end before the next begins. Two things are kept of what stood there: the breaks of
/// families, and how near a legume stands behind the bed, as the rule about heavy feeders asks of
/// the last two stands.
class Relaxation {
 public:
  static constexpr std::size_t kStandings = 3;  ///< no legume, the one before the last, the last

  /// `ground` must outlive it. `objections`: fees that cannot be.
  Relaxation(const Ground& ground, const std::vector<Claims::Fee>& fees,
             std::vector<std::string>& objections);

  /// No path earns more.
  [[nodiscard]] double whole() const;
  /// Nor than this, legumes and the past left out: no honest bound of the class is above it.
  [[nodiscard]] double loosest() const { return loosest_; }
  /// No continuation of a path that left the bed so earns more from its week on.
  [[nodiscard]] double ahead(const ledger::BedState& state) const;
  /// The same for one that begins with the option, its profit and costs taken in.
  [[nodiscard]] double ahead_with(const ledger::BedState& state, std::size_t option) const;

 private:
  struct Row {
    double earns = 0.0;                        ///< burdens of breaks not taken off
    bool gives = false;                        ///< a legume that readies the bed
    std::array<double, kStandings> unready{};  ///< costs by standing; infinite = refused
  };
  void fill_rows();
  void ask_legume_rule(Row& row, const Option& option) const;
  void sweep(bool with_past);
  [[nodiscard]] std::size_t standing(const ledger::BedState& state) const;
  [[nodiscard]] bool readies(const std::array<ledger::PastStand, 2>& recent, calendar::Week week,
                             calendar::Week known_since) const;
  [[nodiscard]] int season_of(calendar::Week week) const;

  const Ground* ground_;
  Breaks breaks_;
  const Option* feeder_ = nullptr;                    ///< some heavy feeder, to ask the rule with
  std::vector<Row> rows_;                             ///< one an option
  std::vector<std::array<double, kStandings>> best_;  ///< by node, the end included
  double loosest_ = 0.0;
};

}  // namespace aftercrop::verifier
