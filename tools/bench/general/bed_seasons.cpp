#include <algorithm>
#include <set>

#include "bench/general/bed_rows.h"

namespace aftercrop::bench {

using calendar::Week;
using calendar::Weeks;
using garden::RuleId;
using garden::Setting;

namespace {

constexpr int kMulchWeeks = 26;  // as the ledger has it

bool protects(catalogue::Ending ending) {
  using catalogue::Ending;
  return ending == Ending::CutRootsLeft || ending == Ending::Mown || ending == Ending::Tarped ||
         ending == Ending::Winterkilled;
}

}  // namespace

void BedRows::add_breaks() {
  const catalogue::Catalogue& rows = beds_->ledger->catalogue();
  if (setting(RuleId::FamilyBreak) == Setting::Off) return;
  // By group, and whether it is a cover: seasons as the earlier stand, and by crop as the later.
  using Key = std::pair<std::size_t, bool>;
  std::map<Key, std::map<int, std::vector<std::size_t>>> as_previous;
  std::map<Key, std::map<catalogue::CropId, std::map<int, std::vector<std::size_t>>>> as_next;
  for (std::size_t i = 0; i < taken_.size(); ++i) {
    const ledger::Stand& stand = beds_->choices()[i].stand;
    const catalogue::Crop& crop = rows.crop(stand.spec.crop);
    if (taken_[i] < 0 || !crop.group.known()) continue;
    const Key key{crop.group.place(), stand.cover};
    as_previous[key][stand.season_as_previous].push_back(i);
    if (beds_->choices()[i].decided == nullptr) {
      as_next[key][stand.spec.crop][stand.season_as_next].push_back(i);
    }
  }
  std::map<Key, BySeason> earlier;
  std::map<Key, std::map<catalogue::CropId, BySeason>> later;
  for (const auto& [key, seasons] : as_previous) {
    for (const auto& [season, stands] : seasons) earlier[key][season] = season_column(stands);
  }
  for (const auto& [key, crops] : as_next) {
    for (const auto& [crop, seasons] : crops) {
      for (const auto& [season, stands] : seasons) later[key][crop][season] = season_column(stands);
    }
  }
  for (const auto& [key, crops] : later) {
    const auto& [group_place, cover] = key;
    const catalogue::BreakGroup& group = rows.groups[group_place];
    const bool bound = beds_->clubroot_seen && !group.cover_binds_if_seen.empty();
    const catalogue::Break with_cover{bound ? group.crop.min : group.cover.min, group.cover.rec};
    relate(earlier[{group_place, false}], crops, cover ? with_cover : group.crop,
           RuleId::FamilyBreak);
    relate(earlier[{group_place, true}], crops, with_cover, RuleId::FamilyBreak);
    if (cover) continue;
    for (const catalogue::CrossBreak& cross : rows.cross_breaks) {
      if (cross.a.place() != group_place && cross.b.place() != group_place) continue;
      const std::size_t other = (cross.a.place() == group_place ? cross.b : cross.a).place();
      relate(earlier[{other, false}], crops, cross.crop, RuleId::FamilyBreak);
    }
  }
  // A refused break once more, for all seasons within its reach together: a tighter row.
  if (setting(RuleId::FamilyBreak) != Setting::Require) return;
  for (const auto& [key, seasons] : earlier) {
    const catalogue::Break& needed = rows.groups[key.first].crop;
    const int reach = key.second || needed.rec <= 0 ? 0 : needed.min;
    for (const auto& [season, column] : seasons) {
      const int row = program_->row(Sense::AtMost, 1.0);
      for (const auto& [other, second] : seasons) {
        if (other >= season && other <= season + reach) program_->add(row, second, 1.0);
      }
    }
  }
}

void BedRows::add_returns() {
  const auto& rows = beds_->ledger->catalogue().host_returns;
  if (setting(RuleId::HostReturn) < Setting::Warn) return;
  for (std::size_t row = 0; row < rows.size() && row < ledger::kMostReturns; ++row) {
    if (rows[row].if_seen.known()) {
      const auto& tracked = beds_->ledger->tracked();
      const auto at = std::find(tracked.begin(), tracked.end(), rows[row].if_seen);
      const bool seen = at != tracked.end() &&
                        beds_->start.loads[static_cast<std::size_t>(at - tracked.begin())].seen;
      if (!seen) continue;
    }
    std::map<int, std::vector<std::size_t>> before;
    std::map<catalogue::CropId, std::map<int, std::vector<std::size_t>>> after;
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      if (taken_[i] < 0) continue;
      const ledger::Stand& stand = beds_->choices()[i].stand;
      if ((stand.returns_as_previous >> row & 1U) != 0U) {
        before[stand.season_as_previous].push_back(i);
      }
      if ((stand.returns_as_next >> row & 1U) != 0U && beds_->choices()[i].decided == nullptr) {
        after[stand.spec.crop][stand.season_as_next].push_back(i);
      }
    }
    if (before.empty() || after.empty()) continue;
    BySeason earlier;
    std::map<catalogue::CropId, BySeason> later;
    for (const auto& [season, stands] : before) earlier[season] = season_column(stands);
    for (const auto& [crop, seasons] : after) {
      for (const auto& [season, stands] : seasons) later[crop][season] = season_column(stands);
    }
    relate(earlier, later, {rows[row].min, std::max(rows[row].min, rows[row].rec)},
           RuleId::HostReturn);
  }
}

/// From the fourth idle winter week in a row on a week is bare, unless dead cover lies there.
void BedRows::add_bare_weeks() {
  const garden::Garden& garden = beds_->ledger->garden();
  if (garden.policy.of(RuleId::BareWinter) < Setting::Warn) return;
  const double price = garden.costs.bare_week_per_m2 * beds_->area_m2;
  const int weeks = beds_->graph().weeks().length().count();
  const int run = ledger::kBareWeekThatCounts;
  bool first_winter = beds_->start.bare_weeks < 0;
  for (int week = 0; week < weeks; ++week) {
    const bool winter = beds_->ledger->winter(beds_->start.week + Weeks(week));
    first_winter = first_winter && winter;
    if (!winter || first_winter) continue;
    const int from = week - run + 1;
    if (from < 0 && beds_->start.bare_weeks < -from) continue;
    bool counts = true;
    for (int at = std::max(0, from); at <= week; ++at) {
      const bool cold = beds_->ledger->winter(beds_->start.week + Weeks(at));
      const bool dead_cover = beds_->start.week + Weeks(at) < beds_->start.mulched_until;
      counts = counts && cold && !dead_cover;
    }
    if (!counts) continue;
    const int idle_weeks = week - std::max(0, from) + 1;
    const int row = program_->row(Sense::AtMost, idle_weeks - 1.0);
    for (int at = std::max(0, from); at <= week; ++at) {
      for (const int column : idle_[at]) program_->add(row, column, 1.0);
    }
    for (std::size_t i = 0; i < taken_.size(); ++i) {
      const ledger::StandSpec& spec = beds_->choices()[i].stand.spec;
      if (taken_[i] < 0 || !protects(spec.ending)) continue;
      const int end = (spec.weeks.past - beds_->start.week).count();
      if (end <= week && from < end + kMulchWeeks) program_->add(row, taken_[i], -1.0);
    }
    program_->add(row, program_->column(-price, 1.0), -1.0);
  }
}

}  // namespace aftercrop::bench
