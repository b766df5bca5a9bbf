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
    for (Week week = want.window.first; week < want.window.past; ++week) {
      const auto price = per_m2_.find({want.crop, week});
      if (price == per_m2_.end()) continue;
      margin = std::max(margin, want.worth_per_m2 - price->second);
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
