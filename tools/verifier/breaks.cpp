#include "breaks.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;

constexpr Week kLongAgo{-90000};

}  // namespace

Breaks::Breaks(const Ground& ground, const std::vector<Claims::Fee>& fees,
               std::vector<std::string>& objections)
    : ground_(&ground) {
  const Week start = ground.start.week;
  first_season_ = ground.ledger->site().season_of({start, start + Weeks(1)});
  find_groups();
  assign_groups();
  read_fees(fees, objections);
  for (std::size_t group = 0; group < groups_.size(); ++group) share_warnings(group);
  burden_options();
}

int Breaks::group_of(const Option& option) const {
  const catalogue::Crop& crop = ground_->ledger->catalogue().crop(option.stand.spec.crop);
  if (crop.is_cover()) return -1;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (groups_[g].id == crop.group) return static_cast<int>(g);
  }
  return -1;
}

void Breaks::find_groups() {
  const catalogue::Catalogue& rows = ground_->ledger->catalogue();
  int last = first_season_;
  int longest = 0;
  const garden::Policy& policy = ground_->ledger->garden().policy;
  if (policy.of(garden::RuleId::FamilyBreak) == garden::Setting::Require) {
    for (const Option& option : ground_->options) {
      const catalogue::Crop& crop = rows.crop(option.stand.spec.crop);
      if (crop.is_cover() || !crop.group.known()) continue;
      const catalogue::Break asked = rows.group(crop.group).crop;
      if (asked.rec <= 0) continue;
      if (group_of(option) < 0) {
        Group group;
        group.id = crop.group;
        group.breaks = asked.min;
        groups_.push_back(std::move(group));
      }
      const bool one_season = option.stand.season_as_next == option.stand.season_as_previous;
      if (option.decided || !one_season) {
        groups_[static_cast<std::size_t>(group_of(option))].pays = false;
      }
      last = std::max(last, option.stand.season_as_previous);
      longest = std::max(longest, asked.min);
    }
  }
  seasons_ = last - first_season_ + longest + 2;
}

void Breaks::assign_groups() {
  burdens_.resize(ground_->options.size());
  for (std::size_t i = 0; i < burdens_.size(); ++i) {
    const int group = group_of(ground_->options[i]);
    if (group >= 0 && groups_[static_cast<std::size_t>(group)].pays) burdens_[i].group = group;
  }
}

void Breaks::read_fees(const std::vector<Claims::Fee>& fees, std::vector<std::string>& objections) {
  for (Group& group : groups_) group.fees.assign(static_cast<std::size_t>(seasons_), 0.0);
  for (const Claims::Fee& fee : fees) read_fee(fee, objections);
  for (Group& group : groups_) {
    if (!group.pays) group.fees.assign(group.fees.size(), 0.0);
    group.rest.assign(group.fees.size() + 1, 0.0);
    for (std::size_t s = group.fees.size(); s-- > 0;) {
      group.rest[s] = group.rest[s + 1] + group.fees[s];
    }
  }
}

void Breaks::read_fee(const Claims::Fee& fee, std::vector<std::string>& objections) {
  const catalogue::Catalogue& rows = ground_->ledger->catalogue();
  const std::string where = fmt::format("bed {}: the fee of {} in season {}",
                                        ground_->ledger->bed().name, fee.group, fee.season);
  const auto group = std::find_if(groups_.begin(), groups_.end(), [&](const Group& one) {
    return one.breaks > 0 && rows.group(one.id).id == fee.group;
  });
  const int offset = fee.season - first_season_;
  if (group == groups_.end() || offset < 0 || offset >= seasons_) {
    objections.push_back(where + " is paid by no stand");
    return;
  }
  double& known = group->fees[static_cast<std::size_t>(offset)];
  if (fee.fee <= 0.0 || known != 0.0) {
    objections.push_back(where + " is there twice or not above nought");
  } else if (!on_scale(fee.fee)) {
    objections.push_back(fmt::format("{}: {} is no multiple of 1/2^30", where, fee.fee));
  }
  known = fee.fee;
}

/// The most stands of a group that one season can hold, one after the other.
int Breaks::most_in_season(int group, int season) const {
  std::vector<calendar::WeekSpan> spans;
  for (std::size_t i = 0; i < burdens_.size(); ++i) {
    const ledger::Stand& stand = ground_->options[i].stand;
    if (burdens_[i].group == group && stand.season_as_next == season) {
      spans.push_back(stand.spec.weeks);
    }
  }
  std::sort(spans.begin(), spans.end(),
            [](const auto& a, const auto& b) { return a.past < b.past; });
  int count = 0;
  Week free = kLongAgo;
  for (const calendar::WeekSpan& span : spans) {
    if (span.first < free) continue;
    free = span.past;
    ++count;
  }
  return std::max(1, count);
}

/// Where the past asks for a warning, the first stand of the group in that season bears it: shares
/// by the least worth and the greatest number of stands come to no more.
void Breaks::share_warnings(std::size_t place_of_group) {
  Group& group = groups_[place_of_group];
  group.warned.assign(static_cast<std::size_t>(seasons_), 0.0);
  group.borne = group.warned;
  rules::Breach advised;
  advised.rule = garden::RuleId::FamilyBreak;
  advised.level = 1;
  const garden::Garden& garden = ground_->ledger->garden();
  if (rules::setting_of(advised, garden.policy) != garden::Setting::Warn || !group.pays) return;
  const int last = ground_->start.crop_season[group.id.place()];
  if (last == ledger::kNeverSeason) return;
  const int advice = ground_->ledger->catalogue().group(group.id).crop.rec;
  for (int season = last + 1 + group.breaks; season <= last + advice; ++season) {
    std::optional<double> least;
    for (std::size_t i = 0; i < burdens_.size(); ++i) {
      const Option& option = ground_->options[i];
      if (burdens_[i].group != static_cast<int>(place_of_group)) continue;
      if (option.stand.season_as_next != season) continue;
      least = least ? std::min(*least, option.worth) : option.worth;
    }
    if (!least) continue;
    const int most = most_in_season(static_cast<int>(place_of_group), season);
    group.warned[place(season)] = garden.costs.warn_share * *least / most;
    group.borne[place(season)] = group.warned[place(season)] * (most - 1);
  }
}

void Breaks::burden_options() {
  std::map<std::pair<int, int>, int> most;  // by group and season
  for (std::size_t i = 0; i < burdens_.size(); ++i) {
    Burden& burden = burdens_[i];
    if (burden.group < 0) continue;
    const Group& group = groups_[static_cast<std::size_t>(burden.group)];
    const int season = ground_->options[i].stand.season_as_next;
    const auto [sharing, fresh] = most.try_emplace({burden.group, season}, 0);
    if (fresh) sharing->second = most_in_season(burden.group, season);
    for (int s = season; s <= season + group.breaks; ++s) burden.fees += group.fees[place(s)];
    burden.fees /= sharing->second;
    burden.warned = group.warned[place(season)];
    // Refused at the start and ever after: what could stand there in between is refused as well.
    const int last = ground_->start.crop_season[group.id.place()];
    const int between = season - last - 1;
    burden.refused = last != ledger::kNeverSeason && between >= 0 && between < group.breaks;
  }
}

std::size_t Breaks::place(int season) const {
  return static_cast<std::size_t>(std::clamp(season - first_season_, 0, seasons_ - 1));
}

double Breaks::all_fees() const {
  double sum = 0.0;
  for (const Group& group : groups_) sum += group.rest.front();
  return sum;
}

double Breaks::ahead(int season, const ledger::BedState& state, int option) const {
  double sum = 0.0;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const Group& group = groups_[g];
    if (!group.pays) continue;
    int last = state.crop_season[group.id.place()];
    if (option >= 0 && burdens_[static_cast<std::size_t>(option)].group == static_cast<int>(g)) {
      last = ground_->options[static_cast<std::size_t>(option)].stand.season_as_previous;
    }
    // Later in the season of the last stand others may follow, unwarned; once it is over, none
    // before the break is.
    int from = season;
    if (last != ledger::kNeverSeason) {
      if (season > last) from = std::max(season, last + group.breaks + 1);
      if (season <= last) sum += group.borne[place(last)];
    }
    sum += group.rest[static_cast<std::size_t>(std::clamp(from - first_season_, 0, seasons_))];
  }
  return sum;
}

}  // namespace aftercrop::verifier
