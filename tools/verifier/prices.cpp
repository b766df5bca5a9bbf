#include "prices.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace aftercrop::verifier {
namespace {

using calendar::Week;

constexpr double kScale = 1024.0;  // prices are whole multiples of its inverse

void object_to_price(double price, const std::string& where, std::vector<std::string>& objections) {
  if (price < 0.0) {
    objections.push_back(fmt::format("{}: the price {} is negative", where, price));
  } else if (price * kScale != std::round(price * kScale)) {
    objections.push_back(fmt::format("{}: the price {} is no multiple of 1/1024", where, price));
  }
}

}  // namespace

Prices::Prices(const Claims& claims, const garden::Garden& garden,
               const catalogue::Catalogue& catalogue, const Wanted& wanted,
               std::vector<std::string>& objections)
    : garden_(&garden), wanted_(&wanted) {
  read_supply(claims, catalogue, objections);
  read_roundings(claims, catalogue, objections);
  read_work(claims, objections);
}

void Prices::read_supply(const Claims& claims, const catalogue::Catalogue& catalogue,
                         std::vector<std::string>& objections) {
  for (const Claims::SupplyPrice& row : claims.supply) {
    const std::string where =
        fmt::format("{} from {}", row.crop, calendar::monday(row.weeks.first).text());
    object_to_price(row.per_m2, where, objections);
    const auto crop = catalogue.find_crop(row.crop);
    if (!crop || row.weeks.first >= row.weeks.past) {
      objections.push_back(fmt::format("{}: no such crop, or no weeks", where));
      continue;
    }
    for (Week week = row.weeks.first; week < row.weeks.past; ++week) {
      const bool fresh = per_m2_.emplace(std::pair(*crop, week), row.per_m2).second;
      if (fresh && !wanted_->open(*crop, week).empty()) continue;
      objections.push_back(fmt::format("{}: the week of {} is {}", where,
                                       calendar::monday(week).text(),
                                       fresh ? "not asked for" : "priced twice"));
      break;
    }
  }
  for (const auto& [key, wants] : wanted_->open_weeks()) {
    if (per_m2_.count(key) == 1) continue;
    objections.push_back(fmt::format("{}: the week of {} has no price",
                                     catalogue.crop(key.first).id,
                                     calendar::monday(key.second).text()));
    break;
  }
}

double Prices::Rounding::counted(double m2) const {
  const double units = std::floor(m2 / unit_m2);
  return rest_m2 * units + std::clamp(m2 - unit_m2 * units, 0.0, rest_m2);
}

double Prices::in_window(const Harvest& harvest, const Wanted::Want& want) {
  double sum = 0.0;
  for (Week week = want.window.first; week < want.window.past; ++week) {
    const auto here = harvest.find({want.crop, week});
    if (here != harvest.end()) sum += here->second;
  }
  return sum;
}

void Prices::read_roundings(const Claims& claims, const catalogue::Catalogue& catalogue,
                            std::vector<std::string>& objections) {
  for (const Claims::RoundingPrice& row : claims.roundings) {
    const std::string where = fmt::format("rounding of want {}, {}", row.want + 1, row.crop);
    object_to_price(row.per_m2, where, objections);
    const auto want = std::find_if(wanted_->wants().begin(), wanted_->wants().end(),
                                   [&](const Wanted::Want& one) { return one.place == row.want; });
    if (want == wanted_->wants().end() || catalogue.crop(want->crop).id != row.crop) {
      objections.push_back(fmt::format("{}: the garden has no such want", where));
      continue;
    }
    if (row.unit_m2 <= 0.0 || row.unit_m2 * kScale != std::round(row.unit_m2 * kScale)) {
      objections.push_back(
          fmt::format("{}: {} m2 is no unit above 0 on the scale of 1/1024", where, row.unit_m2));
      continue;
    }
    const double open = want->amount_m2 - in_window(wanted_->given(), *want);
    if (open <= 0.0) {
      objections.push_back(fmt::format("{}: the past gives all of it", where));
      continue;
    }
    double largest = open;
    for (const garden::Bed& bed : garden_->beds) largest = std::max(largest, bed.area.value());
    if (row.unit_m2 > open && (row.unit_m2 <= largest || row.unit_m2 > largest + 1.5 / kScale)) {
      objections.push_back(fmt::format("{}: a unit above the {} m2 wanted is the next above {} m2",
                                       where, open, largest));
      continue;
    }
    const double units = std::floor(open / row.unit_m2);
    const double rest = std::max(0.0, open - row.unit_m2 * units);
    roundings_.push_back({&*want, row.unit_m2, rest, rest * (units + 1.0), row.per_m2});
  }
}

void Prices::read_work(const Claims& claims, std::vector<std::string>& objections) {
  const bool counts = garden_->hands.hours_per_week > 0.0;
  for (const Claims::WorkPrice& row : claims.work) {
    const std::string where = fmt::format("work, week of {}", calendar::monday(row.week).text());
    object_to_price(row.per_hour, where, objections);
    if (row.per_hour > garden_->costs.work_per_hour) {
      objections.push_back(fmt::format("{}: {} an hour is more than overtime costs ({})", where,
                                       row.per_hour, garden_->costs.work_per_hour));
    }
    const bool fresh = per_hour_.emplace(row.week, row.per_hour).second;
    if (fresh && counts && garden_->seasons.contains(row.week)) continue;
    objections.push_back(fmt::format("{}: priced twice, or no such week of work", where));
  }
}

double Prices::profit(const catalogue::Crop& crop, const ledger::StandSpec& spec,
                      double area_m2) const {
  Harvest harvest;
  wanted_->add_harvest(spec, area_m2, harvest);
  double profit = 0.0;
  for (const auto& [key, m2] : harvest) {
    const auto price = per_m2_.find(key);
    if (price != per_m2_.end()) profit += price->second * m2;
  }
  for (const Rounding& rounding : roundings_) {
    if (rounding.want->crop != spec.crop) continue;
    profit += rounding.per_m2 * rounding.counted(in_window(harvest, *rounding.want));
  }
  if (per_hour_.empty()) return profit;
  for (const auto& [week, hours] : hours_of(crop, spec, area_m2, garden_->seasons)) {
    const auto price = per_hour_.find(week);
    if (price != per_hour_.end()) profit -= price->second * hours;
  }
  return profit;
}

double Prices::beside_beds() const {
  double sum = 0.0;
  for (const Wanted::Want& want : wanted_->wants()) {
    double margin = 0.0;
    double lost = 0.0;  // to roundings, for each square metre that is met
    for (const Rounding& rounding : roundings_) {
      if (rounding.want != &want) continue;
      lost += rounding.per_m2;
      sum += rounding.per_m2 * (want.amount_m2 - rounding.least_m2);
    }
    for (Week week = want.window.first; week < want.window.past; ++week) {
      const auto price = per_m2_.find({want.crop, week});
      if (price == per_m2_.end()) continue;
      margin = std::max(margin, want.worth_per_m2 - lost - price->second);
    }
    sum += margin * want.amount_m2;
  }
  for (const auto& [key, m2] : wanted_->given()) {
    const auto price = per_m2_.find(key);
    if (price != per_m2_.end()) sum += price->second * m2;
  }
  for (const auto& [week, price] : per_hour_) sum += price * hands_in(*garden_, week);
  return sum;
}

}  // namespace aftercrop::verifier
