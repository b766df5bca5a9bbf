// seedling-beside-suppressor: seed under 5 mg sown in place within reach of living rye,
// sorghum-sudangrass or sunflower, in the next section or a bed that lies beside; plants set out
// there only get a note. Common practice, laboratory evidence mostly.
// partner-missing: a pest that the garden names has a partner plant with field trials behind it
// (grades A and B; C is never advised unasked), and a crop that it troubles stands without.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <set>

#include "check/garden_rules.h"

namespace aftercrop::check {
namespace {

using garden::RuleId;

bool suppresses(const catalogue::Crop& crop, const catalogue::Catalogue& rows) {
  static const std::set<std::string> kResidues = {"rye", "sorghum-sudan", "sunflower"};
  return crop.residue.known() && kResidues.contains(rows.residues[crop.residue.place()].id);
}

/// Beds within reach: the next sections of the same bed, and all of a bed that lies beside.
std::vector<std::size_t> beside(const garden::Garden& garden, std::size_t bed) {
  std::vector<std::size_t> near;
  const garden::Bed& here = garden.beds[bed];
  const auto names = [](const garden::Bed& a, const garden::Bed& b) {
    return std::any_of(a.beside.begin(), a.beside.end(),
                       [&](const std::string& name) { return name == b.name || name == b.whole; });
  };
  const auto add = [&](std::size_t other) {
    const garden::Bed& there = garden.beds[other];
    const bool next = here.whole == there.whole && std::abs(here.section - there.section) == 1;
    if (other != bed && (next || names(here, there) || names(there, here))) near.push_back(other);
  };
  const bool lonely = std::none_of(garden.beds.begin(), garden.beds.end(),
                                   [](const garden::Bed& one) { return !one.beside.empty(); });
  const std::size_t reach = lonely ? 1 : garden.beds.size();  // sections stand in order
  const std::size_t first = bed > reach ? bed - reach : 0;
  for (std::size_t i = first; i < garden.beds.size() && i <= bed + reach; ++i) add(i);
  return near;
}

const ledger::StandLine* suppressor_in(const BedRun& run, calendar::Week week,
                                       const catalogue::Catalogue& rows) {
  for (const ledger::StandLine& line : run.lines) {
    if (!line.stand.spec.weeks.contains(week)) continue;
    if (suppresses(rows.crop(line.stand.spec.crop), rows)) return &line;
  }
  return nullptr;
}

bool has_partner(const garden::Planting& planting, const catalogue::PartnerRow& row) {
  return std::any_of(planting.partners.begin(), planting.partners.end(), [&](const auto& one) {
    return std::count(row.partner_crops.begin(), row.partner_crops.end(), one.crop) > 0;
  });
}

bool helps(const catalogue::PartnerRow& row, const std::string& pest, catalogue::CropId crop) {
  if (row.grade == 'C' || row.partner_for.empty()) return false;
  return std::count(row.pests.begin(), row.pests.end(), pest) > 0 &&
         std::count(row.partner_for.begin(), row.partner_for.end(), crop) > 0;
}

/// Stands that a pest troubles and that no partner of theirs answers.
struct Unanswered {
  int stands = 0;
  std::set<std::string> crops;
  const catalogue::PartnerRow* row = nullptr;  ///< the best graded
  const garden::Planting* first = nullptr;
  std::string bed;
};

Unanswered unanswered(const Ground& ground, const std::string& pest) {
  Unanswered found;
  for (std::size_t i = 0; i < ground.runs.size(); ++i) {
    for (const ledger::StandLine& line : ground.runs[i].lines) {
      if (line.stand.spec.weeks.first < ground.garden.seasons.first) continue;
      const catalogue::PartnerRow* best = nullptr;
      bool answered = false;
      for (const catalogue::PartnerRow& row : ground.catalogue.partners) {
        if (!helps(row, pest, line.stand.spec.crop)) continue;
        answered = answered || has_partner(*line.planting, row);
        if (best == nullptr || row.grade < best->grade) best = &row;
      }
      if (best == nullptr || answered) continue;
      ++found.stands;
      found.crops.insert(ground.catalogue.crop(line.stand.spec.crop).name);
      if (found.row == nullptr || best->grade < found.row->grade) found.row = best;
      if (found.first == nullptr) found.first = line.planting;
      if (found.bed.empty()) found.bed = ground.garden.beds[i].name;
    }
  }
  return found;
}

std::string listed(const std::set<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace

void judge_neighbours(const Ground& ground, diagnostic::Diagnostics& out) {
  if (!finding_of(ground.garden, RuleId::SeedlingBesideSuppressor)) return;
  const double small = ground.catalogue.coefficients.rules.small_seed_mg;
  for (std::size_t i = 0; i < ground.runs.size(); ++i) {
    for (const ledger::StandLine& line : ground.runs[i].lines) {
      const calendar::Week start = line.stand.spec.weeks.first;
      if (line.stand.cover || start < ground.garden.seasons.first || line.planting->kept) continue;
      const catalogue::Crop& crop = ground.catalogue.crop(line.stand.spec.crop);
      const bool seed = line.stand.from_seed && crop.seed_mass_mg > 0.0;
      if (seed ? crop.seed_mass_mg >= small : !crop.transplanted()) continue;
      for (const std::size_t near : beside(ground.garden, i)) {
        const auto* other = suppressor_in(ground.runs[near], start, ground.catalogue);
        if (other == nullptr) continue;
        auto finding = finding_of(ground.garden, RuleId::SeedlingBesideSuppressor, seed ? 0 : 1);
        if (!finding) break;
        const catalogue::Crop& tall = ground.catalogue.crop(other->stand.spec.crop);
        finding->message =
            fmt::format("{} {} beside living {} in {}", crop.name,
                        seed ? fmt::format("sown ({:.1f} mg a seed, small below {:.0f})",
                                           crop.seed_mass_mg, small)
                             : std::string("set out"),
                        tall.name, ground.garden.beds[near].name);
        finding->help =
            seed ? fmt::format("leave 30 cm free along {}, sow after {}, or set plants out",
                               ground.garden.beds[near].name, other->planting->to.text())
                 : "grown plants mind little; leave 30 cm free";
        finding->source = line.planting->source;
        finding->bed = ground.garden.beds[i].name;
        finding->week = start;
        finding->cause = crop.id;
        finding->measure = diagnostic::Measure{crop.seed_mass_mg, small, "mg a seed"};
        finding->related.push_back(
            {fmt::format("{} stands in {} until {}", tall.name, ground.garden.beds[near].name,
                         other->planting->to.text()),
             other->planting->source});
        finding->references = {"30 cm and 5 mg: common practice, laboratory evidence mostly"};
        out.add(std::move(*finding));
        break;
      }
    }
  }
}

void judge_partners(const Ground& ground, diagnostic::Diagnostics& out) {
  for (const std::string& pest : ground.garden.pests) {
    const Unanswered found = unanswered(ground, pest);
    auto finding = finding_of(ground.garden, RuleId::PartnerMissing);
    if (!finding || found.row == nullptr) continue;
    const catalogue::PartnerRow& row = *found.row;
    std::set<std::string> plants;
    for (const catalogue::CropId id : row.partner_crops) {
      plants.insert(ground.catalogue.crop(id).name);
    }
    finding->message = fmt::format("{}: {} stand{} without a partner that answers it ({})", pest,
                                   found.stands, found.stands == 1 ? "" : "s", listed(found.crops));
    finding->help = fmt::format("{} with them, {} (grade {}: {}; {})", listed(plants),
                                row.placement, row.grade, row.effect, row.cost);
    finding->source = found.first->source;
    finding->bed = found.bed;
    finding->week = garden::weeks_of(*found.first).first;
    finding->cause = pest;
    finding->measure = diagnostic::Measure{static_cast<double>(found.stands), 0.0, "stands"};
    for (const catalogue::Citation& one : row.sources) {
      finding->references.push_back(fmt::format("{} ({})", one.text, one.grade));
    }
    out.add(std::move(*finding));
  }
}

}  // namespace aftercrop::check
