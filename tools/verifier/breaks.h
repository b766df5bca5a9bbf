#pragma once

#include <string>
#include <vector>

#include "aftercrop/rules/rule.h"
#include "ground.h"

namespace aftercrop::verifier {

/// What the breaks of families take from a bed's paths, so that sums of single stands stay an upper
/// bound of what a path earns.
///
/// Fees: a food crop of a group in season y pays the fees of the seasons y to y + break. Stands
/// that keep the break pay no fee twice, but for stands of one season, which share: each pays its
/// part by the greatest number of them that fit into one season. So a path that gets all fees back
/// never earned more than it says. Groups of which something may stand that is decided, or that
/// takes longer than a season, pay nothing: there a break need not be kept.
///
/// The past: of the groups that pay, no stand comes within the break of what stood there before the
/// start; and of those that come when less has passed than is advised, the first of a season is
/// warned of.
class Breaks {
 public:
  /// `ground` must outlive it. `objections`: fees of unknown groups, twice, negative, off the
  /// scale.
  Breaks(const Ground& ground, const std::vector<Claims::Fee>& fees,
         std::vector<std::string>& objections);

  /// What one option has to bear, by its place.
  struct Burden {
    int group = -1;  ///< place of the group; -1 = none that pays
    double fees = 0.0;
    double warned = 0.0;   ///< its share of the warning that the past asks for
    bool refused = false;  ///< by the past
  };
  [[nodiscard]] const Burden& burden(std::size_t option) const { return burdens_[option]; }
  /// All fees, which a path from the start may get back.
  [[nodiscard]] double all_fees() const;
  /// What a path that left the bed so may get back from a season on; with an option taken first
  /// unless it is negative.
  [[nodiscard]] double ahead(int season, const ledger::BedState& state, int option = -1) const;

 private:
  struct Group {
    catalogue::BreakGroupId id;
    int breaks = 0;
    bool pays = true;
    std::vector<double> fees;    ///< by season, from first_season_ on
    std::vector<double> rest;    ///< and the sum from there on
    std::vector<double> warned;  ///< by season: share of a warning that each of its stands bears
    std::vector<double> borne;   ///< by season: what those that follow another bear in vain
  };
  void find_groups();
  void assign_groups();
  void read_fees(const std::vector<Claims::Fee>& fees, std::vector<std::string>& objections);
  void read_fee(const Claims::Fee& fee, std::vector<std::string>& objections);
  void share_warnings(std::size_t group);
  void burden_options();
  [[nodiscard]] int group_of(const Option& option) const;
  [[nodiscard]] int most_in_season(int group, int season) const;
  [[nodiscard]] std::size_t place(int season) const;

  const Ground* ground_;
  std::vector<Group> groups_;
  std::vector<Burden> burdens_;  ///< one an option
  int first_season_ = 0;
  int seasons_ = 0;
};

}  // namespace aftercrop::verifier
