#include <fmt/format.h>

#include <map>
#include <set>

#include "load/measure.h"
#include "load/moments.h"
#include "load/records.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using catalogue::Amendment;
using diagnostic::Diagnostics;
using garden::Application;
using garden::BedId;
using garden::Garden;

// Available nitrogen in a year above which a record is refused: our choice.
constexpr double kMostAvailableKgHa = 300.0;
// A layer of 15 cm of compost is 90 kg/m2.
constexpr double kMostKgPerM2 = 200.0;
constexpr double kM2PerHa = 10000.0;
constexpr double kLitresPerM2OfMetre = 1000.0;

const Ask kAmount{"the amount",
                  {Dimension::Mass, Dimension::MassPerArea, Dimension::Volume,
                   Dimension::VolumePerArea, Dimension::Length},
                  "kg, lb, t/ha, kg/m2, litres, buckets, cm, in",
                  {0.0, 1.0e7}};

/// Kilograms a square metre on one account. Mass and volume are for the bed that is named, so a
/// section takes its part.
double kg_per_m2(const Measure& amount, const Amendment& material, double named_area_m2) {
  switch (amount.dimension) {
    case Dimension::Mass:
      return amount.value / named_area_m2;
    case Dimension::Volume:
      return amount.value * material.kg_per_litre / named_area_m2;
    case Dimension::VolumePerArea:
      return amount.value * material.kg_per_litre;
    case Dimension::Length:
      return amount.value * kLitresPerM2OfMetre * material.kg_per_litre;
    default:
      break;
  }
  return amount.value;
}

/// The dates of one line: its own, or one a year of the seasons.
std::vector<Date> read_days(const Fields& fields, const Garden& garden, Diagnostics& out) {
  const Node* date = fields.need("date", out);
  if (date == nullptr) return {};
  const Node* each = fields.get("each");
  if (each == nullptr) {
    const auto day = read_date(*date, "the date of an amendment", out);
    return day ? std::vector<Date>{*day} : std::vector<Date>();
  }
  if (!read_choice<bool>(*each, "a repeat", {{"year", true}}, out)) return {};
  const auto day = read_day(*date, "the date of an amendment", out);
  if (!day) return {};
  const auto* exact = std::get_if<Date>(&*day);
  const catalogue::MonthDay month_day = exact != nullptr
                                            ? catalogue::MonthDay{exact->month(), exact->day()}
                                            : std::get<catalogue::MonthDay>(*day);
  std::vector<Date> days;
  const Date first = exact != nullptr ? *exact : calendar::monday(garden.seasons.first);
  for (Date one = next(month_day, first); one < calendar::monday(garden.seasons.past);
       one = in_year(month_day, one.year() + 1)) {
    days.push_back(one);
  }
  return days;
}

/// One line of the file with its names and quantities resolved.
struct Line {
  std::vector<BedId> beds;
  std::set<std::string> named;  ///< names typed, for the area that a mass is spread on
  catalogue::AmendmentId material;
  Measure amount;
  std::vector<Date> days;
  diagnostic::Source source;
};

std::optional<Line> read_line(const Node& node, const Garden& garden, Lookup& lookup,
                              Diagnostics& out) {
  const Fields fields(node, "an amendment", {"bed", "date", "each", "material", "amount"}, out);
  const Node* bed = fields.need("bed", out);
  const Node* material = fields.need("material", out);
  const Node* amount = fields.need("amount", out);
  Line line;
  line.source = amount != nullptr ? amount->source : node.source;
  line.days = fields.is_table() ? read_days(fields, garden, out) : std::vector<Date>();
  if (bed != nullptr) {
    line.beds = lookup.beds(*bed, out);
    for (const Node* name : list_of(*bed)) line.named.insert(name->text);
  }
  const auto id = material != nullptr ? lookup.amendment(*material, out) : std::nullopt;
  const auto measure = amount != nullptr ? read_measure(*amount, kAmount, out) : std::nullopt;
  if (!id || !measure || line.beds.empty()) return {};
  line.material = *id;
  line.amount = *measure;
  return line;
}

/// Watches the available nitrogen of each account and year.
class NitrogenGuard {
 public:
  void add(const Application& one, const Garden& garden, const Amendment& material,
           Diagnostics& out) {
    const double available =
        one.kg_per_m2 * kM2PerHa * material.n_pct / 100.0 * material.available.typical;
    double& sum = sums_[{one.bed, one.date.year()}];
    const bool told = sum > kMostAvailableKgHa;
    sum += available;
    if (told || sum <= kMostAvailableKgHa || !lines_.insert(one.source.line).second) return;
    out.error("too-much-nitrogen",
              fmt::format("{} in {} would bring {:.0f} kg/ha of available nitrogen in {}",
                          material.id, garden.bed(one.bed).name, sum, one.date.year()),
              one.source,
              fmt::format("at most {:g} kg/ha a year is taken: check the amount and its unit",
                          kMostAvailableKgHa))
        .measure = diagnostic::Measure{sum, kMostAvailableKgHa, "kg/ha"};
  }

 private:
  std::map<std::pair<BedId, int>, double> sums_;
  std::set<int> lines_;
};

}  // namespace

std::vector<Application> read_amendments(const Node& node, const Garden& garden, Lookup& lookup,
                                         Diagnostics& out) {
  std::vector<Application> applications;
  NitrogenGuard guard;
  for (const Node* item : read_list(node, "amendments", out)) {
    const auto line = read_line(*item, garden, lookup, out);
    if (!line) continue;
    const Amendment& material = lookup.catalogue().amendment(line->material);
    for (const BedId bed : line->beds) {
      const garden::Bed& account = garden.bed(bed);
      const bool section = line->named.contains(account.name);
      const double area = account.area.value() * (section ? 1 : account.sections);
      const double spread = kg_per_m2(line->amount, material, area);
      if (!check_range(spread, "kg/m2", {0.0, kMostKgPerM2}, "the amount", line->source, out))
        break;
      for (const Date day : line->days) {
        applications.push_back({bed, day, line->material, spread, line->source});
        guard.add(applications.back(), garden, material, out);
      }
    }
  }
  return applications;
}

}  // namespace aftercrop::load
