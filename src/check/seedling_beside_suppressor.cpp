// seedling-beside-suppressor: seed under 5 mg sown in place within reach of living rye,
// sorghum-sudangrass or sunflower, in the next section or a bed that lies beside; plants set out
// there only get a note. Common practice, laboratory evidence mostly.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <set>

#include "aftercrop/garden/measure_text.h"
#include "check/garden_rules.h"

namespace aftercrop::check {
namespace {

using garden::RuleId;

constexpr double kApartCm = 30.0;  // between a suppressor and what is sown: common practice

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
        const std::string apart = garden::length_text(kApartCm, ground.garden.units);
        finding->help =
            seed ? fmt::format("leave {} free along {}, sow after {}, or set plants out", apart,
                               ground.garden.beds[near].name, other->planting->to.text())
                 : "grown plants mind little; leave " + apart + " free";
        finding->source = line.planting->source;
        finding->bed = ground.garden.beds[i].name;
        finding->week = start;
        finding->cause = crop.id;
        finding->measure = diagnostic::Measure{crop.seed_mass_mg, small, "mg a seed"};
        finding->related.push_back(
            {fmt::format("{} stands in {} until {}", tall.name, ground.garden.beds[near].name,
                         other->planting->to.text()),
             other->planting->source});
        finding->references = {"distance and 5 mg: common practice, laboratory evidence mostly"};
        out.add(std::move(*finding));
        break;
      }
    }
  }
}

}  // namespace aftercrop::check
