// bare-winter: ground without crop, mulch or tarp in the wet or freezing season, from the fourth
// week in a row on. A winter that runs when the seasons begin is not the plan's doing. Source:
// Nouri et al. 2022, Glob. Change Biol. 28:4736; the fourth week is our choice.
#include <fmt/format.h>

#include "check/bed_rules.h"
#include "check/garden_rules.h"

namespace aftercrop::check {

void BareWatch::idle_week(const ledger::BedState& after) {
  if (after.bare_weeks == 0) covered();
  if (after.bare_weeks == 1) bare_from_ = after.week - calendar::Weeks(1);
  if (bare_from_ >= from_) bare_ = after.bare_weeks;
}

void BareWatch::covered() {
  if (bare_ >= ledger::kBareWeekThatCounts) spells_.push_back({bare_from_, bare_});
  bare_ = 0;
}

std::optional<diagnostic::Diagnostic> tell_winter(const garden::Garden& garden, garden::BedId bed,
                                                  const BareSpell& spell) {
  auto finding = finding_of(garden, garden::RuleId::BareWinter);
  if (!finding) return {};
  finding->message =
      fmt::format("{} lies bare for {} wet or freezing weeks from {}", garden.bed(bed).name,
                  spell.weeks, calendar::monday(spell.first).text());
  finding->help = "sow a winter cover before it, or leave mulch or a tarp on it";
  finding->source = garden.bed(bed).source;
  finding->bed = garden.bed(bed).name;
  finding->week = spell.first;
  finding->cause = "bare";
  finding->measure = diagnostic::Measure{static_cast<double>(spell.weeks),
                                         ledger::kBareWeekThatCounts - 1.0, "weeks"};
  finding->references = {"Nouri et al. 2022, Glob. Change Biol. 28:4736 (published)"};
  return finding;
}

}  // namespace aftercrop::check
