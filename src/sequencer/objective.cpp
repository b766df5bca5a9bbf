#include "sequencer/objective.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr double kSquareMetresPerHa = 10000.0;
constexpr double kUnwantedWorthShare = 0.1;  // our choice: a cover's worth for shares taken of it

/// Minutes a square metre, one planting from sowing to clearing (common practice).
double minutes_per_m2(catalogue::Work work) {
  switch (work) {
    case catalogue::Work::Low:
      return 10.0;
    case catalogue::Work::Medium:
      return 20.0;
    case catalogue::Work::High:
      break;
  }
  return 40.0;
}

}  // namespace

Objective::Objective(const garden::Garden& garden, const catalogue::Catalogue& catalogue)
    : garden_(&garden), catalogue_(&catalogue) {
  worth_by_crop_.assign(catalogue.crops.size(), 0.0);
  build_rows();
  count_history();
  if (garden.hands.hours_per_week > 0.0) {
    for (Week week = garden.seasons.first; week < garden.seasons.past; ++week) {
      double hours = garden.hands.hours_per_week;
      for (const garden::WorkException& exception : garden.hands.exceptions) {
        const calendar::Date day = calendar::monday(week);
        if (day >= exception.span.first && day < exception.span.past) hours = exception.hours;
      }
      hands_.push_back(hours);
    }
  }
}

void Objective::build_rows() {
  std::map<catalogue::CropId, std::set<Week>> cuts;
  for (const garden::Want& want : garden_->wants) {
    cuts[want.crop].insert(want.window.first);
    cuts[want.crop].insert(want.window.past);
  }
  for (const auto& [crop, weeks] : cuts) {
    for (auto it = weeks.begin(); std::next(it) != weeks.end(); ++it) {
      const WeekSpan span{*it, *std::next(it)};
      const bool wanted = std::any_of(
          garden_->wants.begin(), garden_->wants.end(),
          [&](const auto& want) { return want.crop == crop && want.window.contains(span.first); });
      if (wanted) supplies_.push_back({crop, span});
    }
  }
  for (std::size_t i = 0; i < garden_->wants.size(); ++i) {
    const garden::Want& want = garden_->wants[i];
    WantRow row;
    row.want = i;
    row.amount_m2 = garden::area_needed_m2(want, catalogue_->crop(want.crop));
    row.worth_per_m2 = garden_->costs.want_per_m2 * want.weight;
    for (std::size_t s = 0; s < supplies_.size(); ++s) {
      if (supplies_[s].crop == want.crop && want.window.contains(supplies_[s].weeks.first)) {
        row.supplies.push_back(static_cast<int>(s));
      }
    }
    double& best = worth_by_crop_[want.crop.place()];
    best = std::max(best, row.worth_per_m2);
    wants_.push_back(std::move(row));
  }
  std::stable_sort(wants_.begin(), wants_.end(), [&](const WantRow& a, const WantRow& b) {
    return garden_->wants[a.want].window.past < garden_->wants[b.want].window.past;
  });
}

void Objective::count_history() {
  given_.assign(supplies_.size(), 0.0);
  for (const garden::Planting& planting : garden_->history) {
    const ledger::StandSpec spec = ledger::spec_of(planting);
    const bool failed = planting.ending == catalogue::Ending::Failed;
    if (failed || spec.weeks.first >= garden_->seasons.first) continue;
    const double area = garden_->bed(planting.bed).area.value();
    for (const auto& [row, m2] : supply_of(spec, area)) given_[static_cast<std::size_t>(row)] += m2;
  }
}

double Objective::largest_bed_m2() const {
  double largest = 0.0;
  for (const garden::Bed& bed : garden_->beds) largest = std::max(largest, bed.area.value());
  return largest;
}

void add_supply(Supply& sum, const Supply& more) {
  for (const auto& [row, m2] : more) {
    const auto place = std::lower_bound(sum.begin(), sum.end(), row,
                                        [](const auto& one, int key) { return one.first < key; });
    if (place != sum.end() && place->first == row) {
      place->second += m2;
    } else {
      sum.emplace(place, row, m2);
    }
  }
}

Supply Objective::supply_of(const ledger::StandSpec& spec, double area_m2) const {
  Supply supply;
  const int count = spec.harvest.length().count();
  if (count <= 0) return supply;
  for (std::size_t s = 0; s < supplies_.size(); ++s) {
    if (supplies_[s].crop != spec.crop) continue;
    const Week first = std::max(spec.harvest.first, supplies_[s].weeks.first);
    const Week past = std::min(spec.harvest.past, supplies_[s].weeks.past);
    if (first >= past) continue;
    supply.emplace_back(static_cast<int>(s), area_m2 * (past - first).count() / count);
  }
  return supply;
}

double Objective::worth(const std::vector<double>& delivered_m2,
                        std::vector<double>* met_m2) const {
  std::vector<double> left = delivered_m2;
  for (std::size_t s = 0; s < left.size(); ++s) left[s] += given_[s];
  double sum = 0.0;
  if (met_m2 != nullptr) met_m2->assign(garden_->wants.size(), 0.0);
  for (const WantRow& want : wants_) {
    double open = want.amount_m2;
    for (const int s : want.supplies) {
      const double taken = std::min(open, left[static_cast<std::size_t>(s)]);
      left[static_cast<std::size_t>(s)] -= taken;
      open -= taken;
    }
    const double met = want.amount_m2 - open;
    sum += met * want.worth_per_m2;
    if (met_m2 != nullptr) (*met_m2)[want.want] = met;
  }
  return sum;
}

std::vector<Objective::Marginal> Objective::marginal(
    const std::vector<double>& delivered_m2) const {
  std::vector<double> met;
  (void)worth(delivered_m2, &met);
  std::vector<Marginal> margins(supplies_.size());
  for (const WantRow& want : wants_) {
    const double open = want.amount_m2 - met[want.want];
    if (open <= 1e-9) continue;
    for (const int s : want.supplies) {
      Marginal& margin = margins[static_cast<std::size_t>(s)];
      margin.worth_per_m2 = std::max(margin.worth_per_m2, want.worth_per_m2);
      margin.open_m2 += open;
    }
  }
  return margins;
}

double Objective::stand_worth(catalogue::CropId crop, double area_m2) const {
  const double wanted = worth_by_crop_[crop.place()];
  return area_m2 * (wanted > 0.0 ? wanted : kUnwantedWorthShare * garden_->costs.want_per_m2);
}

double Objective::left_behind() const {
  double cost = 0.0;
  for (const garden::Planting& planting : garden_->earlier) {
    cost += charge_change(stand_worth(planting.crop, garden_->bed(planting.bed).area.value()));
  }
  return cost;
}

void Objective::charge_flows(const ledger::StandOutcome& outcome, double area_m2,
                             Value& value) const {
  const double hectares = area_m2 / kSquareMetresPerHa;
  value.nitrogen += garden_->costs.nitrogen_per_kg * outcome.flows.bought * hectares;
  value.leached += garden_->costs.leached_per_kg * outcome.flows.leached * hectares;
  if (garden_->policy.of(garden::RuleId::BareWinter) >= garden::Setting::Warn) {
    value.bare_winter += garden_->costs.bare_week_per_m2 * outcome.bare_weeks * area_m2;
  }
}

bool Objective::charge_breaches(const rules::Breaches& breaches, double worth, Value& value) const {
  for (const rules::Breach& breach : breaches) {
    const garden::Setting setting = rules::setting_of(breach, garden_->policy);
    if (setting == garden::Setting::Require) return false;
    if (setting == garden::Setting::Warn) value.warnings += garden_->costs.warn_share * worth;
  }
  return true;
}

void Objective::charge_disease(const ledger::BedState& before, const ledger::Stand& stand,
                               double worth, Value& value) const {
  for (std::size_t i = 0; i < before.loads.size(); ++i) {
    if (!stand.loads[i].prone || !before.loads[i].seen) continue;
    const double met = ledger::met_central(before, stand, i);
    if (met <= 0.0) continue;
    const double risk = std::clamp((2.0 + std::log2(met)) / 2.0, 0.0, 1.0);
    value.disease += garden_->costs.disease_share * worth * risk;
  }
}

double Objective::hands(std::size_t season_week) const { return hands_[season_week]; }

double Objective::charge_work(const std::vector<double>& hours) const {
  double over = 0.0;
  for (std::size_t week = 0; week < hands_.size() && week < hours.size(); ++week) {
    over += std::max(0.0, hours[week] - hands_[week]);
  }
  return over * garden_->costs.work_per_hour;
}

std::vector<std::pair<int, double>> hours_of(const catalogue::Crop& crop,
                                             const ledger::StandSpec& spec, double area_m2,
                                             const WeekSpan& seasons) {
  const double minutes =
      crop.is_cover() ? minutes_per_m2(catalogue::Work::Low) / 2.0 : minutes_per_m2(crop.work);
  const double total = minutes * area_m2 / 60.0;
  std::map<int, double> by_week;
  const auto add = [&](Week week, double hours) {
    if (seasons.contains(week)) by_week[(week - seasons.first).count()] += hours;
  };
  const int weeks = spec.weeks.length().count();
  const int harvest = spec.harvest.length().count();
  add(spec.weeks.first, 0.30 * total);
  add(spec.weeks.past - Weeks(1), (harvest > 0 ? 0.10 : 0.50) * total);
  for (Week week = spec.weeks.first; week < spec.weeks.past; ++week)
    add(week, 0.20 * total / weeks);
  for (Week week = spec.harvest.first; week < spec.harvest.past; ++week) {
    add(week, 0.40 * total / harvest);
  }
  return {by_week.begin(), by_week.end()};
}

}  // namespace aftercrop::sequencer
