#include "emit/feeding.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/nitrogen/manure.h"
#include "aftercrop/units/us.h"
#include "emit/amounts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using calendar::Date;
using garden::Planting;

constexpr double kM2PerHectare = 10000.0;
constexpr double kLeastGrams = 0.5;
constexpr double kMostKgPerM2 = 5.0;  // 50 t/ha of compost a year: phosphorus, common practice
constexpr int kDaysBeforeSeed = 14;   // meals burn germinating seed, common practice
constexpr int kDaysToSeedlings = 14;  // until rows can be seen, common practice
constexpr std::array<std::string_view, 5> kUsual = {"feather-meal", "blood-meal", "soybean-meal",
                                                    "cottonseed-meal", "poultry-dung"};
constexpr std::size_t kChoices = 3;
constexpr const char* kTestFirst =
    "Test the soil first: the figures are estimates, and local extension advice and local limits "
    "go before them.";

bool may_be_spread(const catalogue::Amendment& material, const garden::Garden& garden,
                   const catalogue::Catalogue& catalogue, const Planting& planting, Date date) {
  if (material.fresh_matter || material.n_pct <= 0.0 || material.available.typical <= 0.0) {
    return false;
  }
  if (!material.raw_manure) return true;
  if (garden.children || !planting.harvest) return false;
  const Date earliest = nitrogen::first_harvest_after_manure(catalogue.crop(planting.crop), date,
                                                             catalogue.coefficients.nitrogen);
  return earliest <= planting.harvest->first;
}

Dose dose_of(catalogue::AmendmentId id, const catalogue::Amendment& material, double need_kg) {
  const double share = material.n_pct / 100.0;
  const double typical = need_kg / (share * material.available.typical);
  const auto at = [&](double available) {
    return available > 0.0 ? need_kg / (share * available) : typical;
  };
  return {id, typical, at(material.available.high), at(material.available.low)};
}

/// Two weeks ahead of seed, on the day for plants; never before the stand that was there is gone.
/// Seed that follows sooner is fed when it is up.
void set_date(const catalogue::Crop& crop, const ledger::BedAccount& account, Feeding& feeding) {
  const Planting& planting = *feeding.planting;
  const bool plants = crop.transplanted() || planting.raised.has_value();
  const Date wanted = plants ? planting.from : planting.from.plus_days(-kDaysBeforeSeed);
  feeding.date = wanted;
  for (const ledger::StandLine& other : account.stands) {
    if (other.planting == nullptr || other.planting->from >= planting.from) continue;
    feeding.date = std::max(feeding.date, std::min(other.planting->to, planting.from));
  }
  const bool seed = !plants && crop.seed_class != catalogue::SeedClass::Vegetative;
  feeding.beside_rows = seed && feeding.date > wanted;
  if (!feeding.beside_rows) return;
  feeding.date = std::min(planting.from.plus_days(kDaysToSeedlings), planting.to.plus_days(-1));
}

/// The grower's materials, filled up with the usual ones.
std::vector<Dose> doses_for(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                            const Planting& planting, Date date, double need_kg) {
  std::vector<Dose> doses;
  const double most_kg = kMostKgPerM2 * garden.bed(planting.bed).area.value();
  const auto offer = [&](std::string_view id) {
    const auto material = catalogue.find_amendment(id);
    if (!material) return;
    const catalogue::Amendment& row = catalogue.amendment(*material);
    if (!may_be_spread(row, garden, catalogue, planting, date)) return;
    const Dose dose = dose_of(*material, row, need_kg);
    if (dose.kg <= most_kg) doses.push_back(dose);
  };
  for (const std::string& id : garden.materials) offer(id);
  for (const std::string_view id : kUsual) {
    const bool named =
        std::find(garden.materials.begin(), garden.materials.end(), id) != garden.materials.end();
    if (doses.size() < kChoices && !named) offer(id);
  }
  return doses;
}

}  // namespace

std::vector<Feeding> feedings(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                              const ledger::BedAccount& account, Date since) {
  std::vector<Feeding> all;
  const double hectares = garden.bed(account.bed).area.value() / kM2PerHectare;
  for (const ledger::StandLine& line : account.stands) {
    if (line.planting == nullptr || line.planting->from < since) continue;
    const double need_kg = line.outcome.flows.bought * hectares;
    if (need_kg * 1000.0 < kLeastGrams) continue;
    Feeding feeding;
    feeding.planting = line.planting;
    set_date(catalogue.crop(line.planting->crop), account, feeding);
    feeding.nitrogen_g = need_kg * 1000.0;
    feeding.doses = doses_for(garden, catalogue, *line.planting, feeding.date, need_kg);
    all.push_back(std::move(feeding));
  }
  return all;
}

std::string feeding_caution(const Feeding& feeding, const catalogue::Catalogue& catalogue,
                            garden::UnitSystem units) {
  std::vector<std::string> ids;
  for (const Dose& dose : feeding.doses) {
    const auto& more = catalogue.amendment(dose.material).cautions;
    ids.insert(ids.end(), more.begin(), more.end());
  }
  const std::string text = caution_text(ids, catalogue, units);
  return text.empty() ? kTestFirst : fmt::format("{} {}", kTestFirst, text);
}

std::string feeding_text(const Feeding& feeding, const garden::Garden& garden,
                         const catalogue::Catalogue& catalogue) {
  const catalogue::Crop& crop = catalogue.crop(feeding.planting->crop);
  std::string text =
      fmt::format("feed for {} on {}{}: {} of nitrogen", crop.name, feeding.date.text(),
                  feeding.beside_rows ? ", beside the rows" : "",
                  mass_text(feeding.nitrogen_g / 1000.0, garden.units));
  const std::string doses = doses_text(feeding.doses, catalogue, garden.units);
  if (!doses.empty()) text += ": " + doses;
  if (feeding.planting->harvest && !garden.children) {
    const int days = nitrogen::manure_days(crop, catalogue.coefficients.nitrogen);
    text += fmt::format(". Raw manure only until {} ({} days before the harvest)",
                        feeding.planting->harvest->first.plus_days(-days).text(), days);
  }
  return diagnostic::printable(text);
}

std::string spread_text(double kg, const catalogue::Amendment& material, garden::UnitSystem units) {
  constexpr double kBucketLitres = 10.0;
  constexpr double kLeastBuckets = 0.3;
  std::string out = mass_text(kg, units);
  if (material.quick || material.kg_per_litre <= 0.0) return out;
  const double litres = kg / material.kg_per_litre;
  if (litres < kLeastBuckets * kBucketLitres) return out;
  if (units == garden::UnitSystem::Us) {
    return out + fmt::format(", {} gallons,", two_digits(litres / units::kLitresPerGallon));
  }
  return out + fmt::format(", {} buckets of 10 litres,", two_digits(litres / kBucketLitres));
}

std::string doses_text(const std::vector<Dose>& doses, const catalogue::Catalogue& catalogue,
                       garden::UnitSystem units) {
  std::string out;
  for (const Dose& dose : doses) {
    const catalogue::Amendment& material = catalogue.amendment(dose.material);
    if (!out.empty()) out += ", or ";
    out += fmt::format("{} of {} ({} to {})", spread_text(dose.kg, material, units), material.name,
                       mass_text(dose.kg_low, units), mass_text(dose.kg_high, units));
  }
  return out;
}

}  // namespace aftercrop::emit
