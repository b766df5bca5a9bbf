#pragma once

#include <array>
#include <cstdint>
#include <set>
#include <vector>

#include "sequencer/classes.h"

namespace aftercrop::sequencer {

/// How near a legume stands behind a bed: none of the last two stands, the one before the last,
/// the last.
enum class Readiness : std::uint8_t { None, Older, Latest };
inline constexpr std::size_t kReadinesses = 3;

/// What remains of a class's arcs when a bed's state is forgotten but for the legumes among its
/// last two stands: nitrogen, disease, waits and bare ground are left out, for they only ever cost.
/// Made once a kind of beds; asks the rules, knows none itself.
class Relaxed {
 public:
  static constexpr std::size_t kMostPriced = 32;  ///< groups whose breaks have fees

  struct Arc {
    int from = 0;  ///< nodes: weeks from the start
    int to = 0;
    bool stand = false;
    bool gives = false;                          ///< a legume that readies the bed
    int key = -1;                                ///< of the season it takes; -1 = pays no fee
    double costs = 0.0;                          ///< of the stand wherever it comes
    std::array<double, kReadinesses> unready{};  ///< costs by readiness; infinite = not allowed
  };
  struct Group {
    catalogue::BreakGroupId group;
    int breaks = 0;  ///< seasons that have to lie between
  };
  /// A season that a group takes.
  struct Key {
    std::size_t group = 0;
    int season = 0;
    double share = 1.0;  ///< of the fee for each stand: one over the most that a season can hold
  };
  /// What a class's own past adds.
  struct Past {
    Readiness start = Readiness::None;
    std::vector<bool> refused;  ///< arcs, by what stood here before the start
  };
  /// What a path's state means to what can still come.
  struct Standing {
    Readiness readiness = Readiness::None;
    std::array<std::int16_t, kMostPriced> last{};  ///< season of each priced group's last stand
  };

  /// `beds` = any class of the kind. Both must outlive it.
  Relaxed(const BedClass& beds, const Objective& objective);

  [[nodiscard]] Past past_of(const BedClass& beds) const;

  [[nodiscard]] const std::vector<Arc>& arcs() const { return arcs_; }
  /// Places of the arcs that leave a node: [first, past).
  [[nodiscard]] std::pair<std::size_t, std::size_t> leaving(int node) const;
  [[nodiscard]] const std::vector<Group>& groups() const { return groups_; }
  [[nodiscard]] const std::vector<Key>& keys() const { return keys_; }
  [[nodiscard]] int nodes() const { return static_cast<int>(season_of_node_.size()); }
  [[nodiscard]] int end() const { return end_; }  ///< first node past the seasons
  [[nodiscard]] int season_of(int node) const {
    return season_of_node_[static_cast<std::size_t>(node)];
  }
  [[nodiscard]] int first_season() const { return first_season_; }
  [[nodiscard]] int seasons() const { return seasons_; }  ///< that fees may be asked for
  [[nodiscard]] Standing standing(const ledger::BedState& state) const;

 private:
  void read_arcs();
  void read_rules(Arc& arc, const Choice& choice);
  void find_unbound();
  [[nodiscard]] bool refused(const Choice& choice, const BedClass& beds) const;
  [[nodiscard]] int key_of(const Choice& choice);
  void count_repeats();
  [[nodiscard]] Readiness readiness_of(const ledger::BedState& state) const;
  [[nodiscard]] bool content(const ledger::BedState& state) const;
  [[nodiscard]] bool readies(const Choice& choice) const;

  const BedClass* beds_;
  const Objective* objective_;
  const Choice* hungry_ = nullptr;  ///< any heavy feeder, to ask the rule with
  std::vector<Arc> arcs_;
  std::vector<std::size_t> first_;             ///< arcs of a node, one more than nodes
  std::set<catalogue::BreakGroupId> unbound_;  ///< groups without fees and refusals here
  std::vector<Group> groups_;
  std::vector<Key> keys_;
  std::vector<int> season_of_node_;
  int first_season_ = 0;
  int seasons_ = 0;
  int end_ = 0;
};

/// Readiness after a stand.
[[nodiscard]] constexpr Readiness after(Readiness before, bool gives) {
  if (gives) return Readiness::Latest;
  return before == Readiness::Latest ? Readiness::Older : Readiness::None;
}

}  // namespace aftercrop::sequencer
