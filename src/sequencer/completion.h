#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "aftercrop/sequencer/certificate.h"
#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// How near a legume stands behind a bed: none of the last two stands, the one before the last,
/// the last.
enum class Readiness { None, Older, Latest };
inline constexpr std::size_t kReadinesses = 3;

/// The best that a bed could still earn from a week on, never below the truth. It keeps what the
/// legume rule asks of the last two stands and prices family breaks by multipliers; nitrogen,
/// disease, waits and bare ground are left out, for they only ever cost. One a class of beds.
///
/// Multipliers: a stand of a group in season y pays mu[group][y] to mu[group][y + break], shared
/// among the most stands that one season can hold. No path that keeps the breaks pays one of them
/// more than once, so what a path earns less what it paid, plus all multipliers, is no less than
/// what it earns.
class Completion {
 public:
  static constexpr std::size_t kMostPriced = 32;  ///< groups with multipliers

  /// Both must outlive it.
  Completion(const BedClass& beds, const Objective& objective);

  /// Works the values out for these profits (one an arc, as `arc_profits` gives them) at the
  /// multipliers that stand, and lets `steps` subgradient steps lower the bound. `target` = what
  /// some path is known to earn at these profits.
  void solve(const std::vector<double>& profits, int steps, double target);

  /// No path of the class earns more at the profits of the last `solve`.
  [[nodiscard]] double bound() const { return bound_; }
  /// What a path's state means to what can still come.
  struct Standing {
    std::uint8_t readiness = 0;
    std::array<std::int16_t, kMostPriced> last{};  ///< season of each priced group's last stand
  };
  [[nodiscard]] Standing standing(const ledger::BedState& state) const;
  /// No continuation of a path that stands so at a node earns more.
  [[nodiscard]] double ahead(int node, const Standing& standing) const;
  /// No continuation that begins with this arc earns more, its own profit left out; below any
  /// number if the arc is refused.
  [[nodiscard]] double ahead_through(std::size_t arc, const Standing& standing) const;
  /// The multipliers in use that are not zero.
  [[nodiscard]] std::vector<Certificate::Fee> fees() const;

 private:
  struct Relaxed {
    int from = 0;
    int to = 0;
    int stand = -1;
    bool gives = false;                          ///< a legume that readies the bed
    bool refused = false;                        ///< by what stood here before the start
    int key = -1;                                ///< group and season, for the multipliers
    double costs = 0.0;                          ///< of the stand wherever it comes
    std::array<double, kReadinesses> unready{};  ///< costs by readiness; kRefused = not allowed
  };
  struct Group {
    catalogue::BreakGroupId group;
    int breaks = 0;  ///< seasons
  };
  struct Key {
    std::size_t group = 0;
    int season = 0;
    double share = 1.0;
  };

  void read_arcs();
  void read_rules(Relaxed& arc, const Choice& choice);
  void read_history(Relaxed& arc, const Choice& choice);
  [[nodiscard]] int key_of(const Choice& choice);
  void count_repeats();
  [[nodiscard]] Readiness readiness_of(const ledger::BedState& state) const;
  [[nodiscard]] bool content(const ledger::BedState& state) const;
  [[nodiscard]] bool readies(const Choice& choice);
  [[nodiscard]] std::size_t place(std::size_t group, int season) const;
  void sweep(const std::vector<double>& profits);
  void best_path(const std::vector<double>& profits, std::vector<double>& paid) const;
  [[nodiscard]] double fees(const Key& key) const;
  [[nodiscard]] double fees_ahead(int node, const Standing& standing, int group, int season) const;

  const BedClass* beds_;
  const Objective* objective_;
  const Choice* hungry_ = nullptr;  ///< any heavy feeder, to ask the rule with
  std::vector<Relaxed> arcs_;
  std::vector<std::size_t> first_;  ///< arcs of a node, one more than nodes
  std::vector<Group> groups_;
  std::vector<Key> keys_;
  std::vector<double> fee_;                     ///< by key, at mu_
  std::vector<double> mu_;                      ///< [group][season - first season]
  std::vector<std::vector<double>> paid_from_;  ///< [group][season]: sum of mu from there on
  int first_season_ = 0;
  int seasons_ = 0;
  int nodes_ = 0;
  int end_ = 0;
  std::vector<double> values_;  ///< [node][readiness]
  double bound_ = 0.0;
  std::vector<int> season_of_node_;  ///< season of the week that begins there
};

}  // namespace aftercrop::sequencer
