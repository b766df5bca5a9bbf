#include "aftercrop/emit/order.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "aftercrop/rules/window_words.h"
#include "emit/feeding.h"
#include "emit/seed.h"

namespace aftercrop::emit {
namespace {

using calendar::Date;

/// Adds up what is bought of one thing in one year.
class Basket {
 public:
  void put(const std::string& what, const std::string& unit, double amount, Date day) {
    if (!(amount > 0.0)) return;
    const Date needed = calendar::monday(calendar::week_of(day));
    const auto key = std::make_tuple(calendar::iso(calendar::week_of(day)).year, what, unit);
    const auto [entry, is_new] = lines_.try_emplace(key, OrderLine{what, 0.0, unit, needed});
    entry->second.amount += amount;
    entry->second.needed_by = std::min(entry->second.needed_by, needed);
  }

  [[nodiscard]] std::vector<OrderLine> sorted() const {
    std::vector<OrderLine> all;
    for (const auto& [key, line] : lines_) all.push_back(line);
    std::sort(all.begin(), all.end(), [](const OrderLine& a, const OrderLine& b) {
      return std::tie(a.needed_by, a.what, a.unit) < std::tie(b.needed_by, b.what, b.unit);
    });
    return all;
  }

 private:
  std::map<std::tuple<int, std::string, std::string>, OrderLine> lines_;
};

void put_planting(const garden::Planting& planting, const garden::Bed& bed,
                  const catalogue::Catalogue& catalogue, const climate::SiteClimate& site,
                  Basket& basket) {
  const auto put = [&](catalogue::CropId id, double share, bool raised, Date day,
                       const std::string& cultivar) {
    for (const Stock& stock : stocks_for(catalogue, catalogue.crop(id), bed, share, raised)) {
      const std::string what = cultivar.empty() ? stock.what : stock.what + ", " + cultivar;
      basket.put(what, stock.unit, stock.amount, day);
    }
  };
  put(planting.crop, 1.0, planting.raised.has_value(), planting.raised.value_or(planting.from),
      rules::cultivar_words(catalogue.crop(planting.crop), site, calendar::week_of(planting.from)));
  if (planting.partners.empty()) return;
  const double share = kPartnerShare / static_cast<double>(planting.partners.size());
  for (const garden::Partner& partner : planting.partners) {
    put(partner.crop, share, false, planting.from, {});
  }
}

}  // namespace

std::vector<OrderLine> order_list(const garden::Garden& garden,
                                  const catalogue::Catalogue& catalogue, const garden::Plan& plan,
                                  const std::vector<ledger::BedAccount>& accounts,
                                  const ledger::SiteClimates& climates) {
  const Date since = calendar::monday(garden.seasons.first);
  Basket basket;
  for (const garden::Planting& planting : plan.plantings) {
    if (planting.from < since) continue;
    const garden::Bed& bed = garden.bed(planting.bed);
    put_planting(planting, bed, catalogue, climates.of(bed.shelter), basket);
  }
  for (const ledger::BedAccount& account : accounts) {
    for (const Feeding& feeding : feedings(garden, catalogue, account, since)) {
      if (feeding.doses.empty()) continue;
      const Dose& dose = feeding.doses.front();
      basket.put(catalogue.amendment(dose.material).name, "kg", dose.kg, feeding.date);
    }
  }
  for (const garden::Application& spread : garden.applications) {
    if (spread.date < since) continue;
    const double kg = spread.kg_per_m2 * garden.bed(spread.bed).area.value();
    basket.put(catalogue.amendment(spread.material).name, "kg", kg, spread.date);
  }
  return basket.sorted();
}

}  // namespace aftercrop::emit
