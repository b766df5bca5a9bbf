// nitrogen-surplus: mineral nitrogen that lies in an idle bed as the wet or freezing season begins.
// A soil keeps some over winter; what is told is over that, and over what is within doubt. Source:
// Nouri et al. 2022, Glob. Change Biol. 28:4736; the limits are our choice.
#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/garden/measure_text.h"
#include "check/bed_rules.h"
#include "check/garden_rules.h"

namespace aftercrop::check {

std::optional<Leftover> leftover_in(const ledger::BedState& after, calendar::Week week,
                                    const garden::Planting* last_stand,
                                    const catalogue::Coefficients& k) {
  if (last_stand == nullptr) return {};  // nothing on record: what lies there is not known
  const double left = after.pools.mineral - k.nitrogen.surplus_kept;
  const double band =
      std::max(k.rules.left_band.value, k.rules.left_band_share * after.pools.mineral);
  if (left <= band) return {};
  return Leftover{week, left, band, last_stand};
}

std::optional<diagnostic::Diagnostic> tell_leftover(const garden::Garden& garden, garden::BedId bed,
                                                    const Leftover& left) {
  auto finding = finding_of(garden, garden::RuleId::NitrogenSurplus);
  if (!finding) return {};
  const garden::Bed& here = garden.bed(bed);
  finding->message =
      fmt::format("about {} of nitrogen is left in {} before the wet season ({} is within doubt)",
                  garden::nitrogen_text(left.kg_ha, here, garden.units), here.name,
                  garden::nitrogen_text(left.band_kg_ha, here, garden.units));
  finding->help = "sow a cover that takes it up, dig legumes in only in spring, or feed less";
  finding->source = left.after != nullptr ? left.after->source : garden.bed(bed).source;
  finding->bed = garden.bed(bed).name;
  finding->week = left.week;
  finding->cause = "left";
  finding->measure = diagnostic::Measure{left.kg_ha, left.band_kg_ha, "kg N/ha"};
  finding->references = {"kept in the soil 20 kg/ha, told from 30: our choice",
                         "Nouri et al. 2022, Glob. Change Biol. 28:4736 (published)"};
  return finding;
}

}  // namespace aftercrop::check
