#pragma once

#include <array>
#include <string>
#include <vector>

#include "ground.h"

namespace aftercrop::verifier {

/// What a bed can earn at most, without its nitrogen, diseases, waits and bare weeks: paths of
/// stands that end before the next begins. Two things of the bed's past are kept.
///
/// Legumes: how near one stands behind the bed, as the rule about heavy feeders asks of the last
/// two stands.
///
/// Breaks: a food crop of a group in season y pays the fees of the seasons y to y + break. Stands
/// that keep the break pay no fee twice, but for stands of one season, which share: each pays its
/// part by the greatest number of them that fit into one season. So all fees together, less what
/// a path paid, never make up for less than nothing. Groups of which something may stand that is
/// decided, or that takes longer than a season, pay nothing: there a break need not be kept. Of the
/// groups that pay, no stand comes within the break of what stood there before the start.
class Relaxation {
 public:
  static constexpr std::size_t kStandings = 3;  ///< no legume, the one before the last, the last

  /// `ground` must outlive it. `objections`: fees of unknown groups, twice, or negative.
  Relaxation(const Ground& ground, const std::vector<Claims::Fee>& fees,
             std::vector<std::string>& objections);

  /// No path earns more.
  [[nodiscard]] double whole() const;
  /// Nor than this, the legumes left out: no honest bound of the class is above it.
  [[nodiscard]] double loosest() const { return loosest_; }
  /// No continuation of a path that left the bed so earns more from its week on.
  [[nodiscard]] double ahead(const ledger::BedState& state) const;
  /// The same for one that begins with the option, its profit and costs taken in.
  [[nodiscard]] double ahead_with(const ledger::BedState& state, std::size_t option) const;
  /// How near a legume stands: place among the standings.
  [[nodiscard]] std::size_t standing(const ledger::BedState& state) const;

 private:
  struct Row {
    double earns = 0.0;  ///< less the fees it pays
    double paid = 0.0;
    bool gives = false;                        ///< a legume that readies the bed
    std::array<double, kStandings> unready{};  ///< costs by standing; infinite = refused
    int group = -1;                            ///< place in groups_, if it pays fees
    bool refused = false;                      ///< by what stood there before the start
  };
  struct Group {
    catalogue::BreakGroupId id;
    int breaks = 0;
    bool pays = true;
    std::vector<double> fees;  ///< by season, from first_season_ on
    std::vector<double> rest;  ///< and the sum from there on
  };
  void find_groups();
  void read_fees(const std::vector<Claims::Fee>& fees, std::vector<std::string>& objections);
  void price_rows();
  [[nodiscard]] bool too_soon(const Row& row, const Option& option) const;
  void ask_legume_rule(Row& row, const Option& option) const;
  void sweep();
  void leave_legumes_out();
  [[nodiscard]] int group_of(const Option& option) const;
  [[nodiscard]] bool keeps_one_season(const Option& option) const;
  [[nodiscard]] int most_in_season(std::size_t group, int season) const;
  [[nodiscard]] bool readies(const std::array<ledger::PastStand, 2>& recent, calendar::Week week,
                             calendar::Week known_since) const;
  [[nodiscard]] double fees_ahead(int season, const ledger::BedState& state,
                                  const Option* with) const;
  [[nodiscard]] int season_of(calendar::Week week) const;

  const Ground* ground_;
  const Option* feeder_ = nullptr;  ///< some heavy feeder, to ask the rule with
  std::vector<Row> rows_;           ///< one an option
  std::vector<Group> groups_;
  int first_season_ = 0;
  int seasons_ = 0;
  std::vector<std::array<double, kStandings>> best_;  ///< by node, the end included
  double loosest_ = 0.0;
};

}  // namespace aftercrop::verifier
