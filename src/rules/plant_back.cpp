// plant-back: seed, or a transplant, too soon after fresh or growth-checking residue.
// Bad: carrots two weeks after rye was cut. Good: squash two weeks after leafy rye.
// The wait shrinks with the mass of one seed: s = 1 - log10(mg)/log10(30), nothing at 30 mg.
// Source: Liebman and Sundberg 2006, Weed Science (relation to seed mass); waits by residue row.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Liebman and Sundberg 2006, Weed Science: seed mass and residue (published)",
    "Michigan State University Extension, plant-back after cover crops (published)"};
constexpr double kDryTPerHaToKgM2 = 0.1;

double seed_factor(double mg, double safe_mg) {
  return std::clamp(1.0 - std::log10(std::max(mg, 0.01)) / std::log10(safe_mg), 0.0, 1.0);
}

bool left_on_top(catalogue::Ending ending) {
  using catalogue::Ending;
  return ending == Ending::CutRootsLeft || ending == Ending::Mown || ending == Ending::Tarped;
}

int wait_of_plants(const ledger::PastStand& past, const catalogue::ResidueClass& row,
                   double late_flower) {
  if (past.ending == catalogue::Ending::Winterkilled) return 0;
  if (left_on_top(past.ending) && row.mulch_transplants > 0) return row.mulch_transplants;
  return past.flower >= late_flower ? row.late_transplants : row.transplants;
}

int weeks_for_smallest(const ledger::PastStand& past, const catalogue::ResidueClass& row,
                       double late_flower) {
  const bool late = past.flower >= late_flower;
  if (past.ending == catalogue::Ending::Winterkilled) return row.winterkilled;
  if (past.ending == catalogue::Ending::Incorporated) {
    return late ? row.late_incorporated : row.incorporated;
  }
  if (!left_on_top(past.ending)) return 0;
  return late ? row.late_mulch : row.mulch;
}

int wait_weeks(const ledger::PastStand& past, const ledger::Stand& next,
               const catalogue::Catalogue& rows) {
  const catalogue::Crop& before = rows.crop(past.crop);
  const catalogue::Crop& crop = rows.crop(next.spec.crop);
  if (!before.residue.known()) return 0;
  const catalogue::RuleCoefficients& k = rows.coefficients.rules;
  const catalogue::ResidueClass& row = rows.residues[before.residue.place()];
  const bool dug = past.ending == catalogue::Ending::Incorporated;
  if (!dug && !left_on_top(past.ending) && past.ending != catalogue::Ending::Winterkilled) return 0;
  const int least = dug ? row.least_incorporated : 0;
  const bool plants = !next.from_seed || crop.seed_class == catalogue::SeedClass::Vegetative;
  if (plants) return std::max(least, wait_of_plants(past, row, k.late_flower));
  const double mass = std::clamp(past.dry_t_ha * kDryTPerHaToKgM2 / k.usual_residue, 0.5, 1.5);
  const double weeks = weeks_for_smallest(past, row, k.late_flower) *
                       seed_factor(crop.seed_mass_mg, k.safe_seed_mg) * mass;
  return std::max(least, static_cast<int>(std::ceil(weeks - 1e-9)));
}

void judge(const Occasion& occasion, Breaches& out) {
  for (const ledger::PastStand& past : occasion.before.recent) {
    if (!past.crop.known()) continue;
    const int wait = wait_weeks(past, occasion.stand, occasion.catalogue());
    const int since = (occasion.before.week - past.weeks.past).count();
    if (since >= wait) continue;
    Breach breach;
    breach.rule = garden::RuleId::PlantBack;
    breach.computed = since;
    breach.limit = wait;
    breach.unit = "weeks";
    breach.other = past.crop;
    breach.other_week = past.weeks.past;
    out.push_back(breach);
    return;
  }
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const calendar::Week earliest =
      breach.other_week + calendar::Weeks(static_cast<int>(breach.limit));
  Words words;
  words.message =
      fmt::format("{} {} week{} after {} was ended, {} asked for", occasion.crop().name,
                  static_cast<int>(breach.computed), breach.computed == 1 ? "" : "s",
                  occasion.catalogue().crop(breach.other).name, static_cast<int>(breach.limit));
  words.help = fmt::format("start on {} or later, or put plants or large seed there",
                           calendar::monday(earliest).text());
  words.related = fmt::format("{} ended here", occasion.catalogue().crop(breach.other).name);
  return words;
}

}  // namespace

Rule plant_back() {
  return {garden::RuleId::PlantBack, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
