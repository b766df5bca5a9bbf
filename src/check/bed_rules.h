#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/check/bed_run.h"

// The rules about whole beds, one file each: what breaks it, and how that is told. A finding is
// empty where the garden has switched its rule off.
namespace aftercrop::check {

/// bed-double-booked: stands that begin before an earlier one is out. `plantings` by their start.
[[nodiscard]] std::vector<Overlap> overlaps_in(
    const std::vector<const garden::Planting*>& plantings);
[[nodiscard]] std::optional<diagnostic::Diagnostic> tell_overlap(
    const garden::Garden& garden, const catalogue::Catalogue& catalogue, garden::BedId bed,
    const Overlap& overlap);

/// bare-winter: counts the bare weeks of a walk along a bed.
class BareWatch {
 public:
  /// What began before `from` is past help.
  explicit BareWatch(calendar::Week from) : from_(from) {}
  void idle_week(const ledger::BedState& after);
  /// Ground is covered again, or the walk is over.
  void covered();
  [[nodiscard]] const std::vector<BareSpell>& spells() const { return spells_; }

 private:
  calendar::Week from_;
  calendar::Week bare_from_;
  int bare_ = 0;
  std::vector<BareSpell> spells_;
};
[[nodiscard]] std::optional<diagnostic::Diagnostic> tell_winter(const garden::Garden& garden,
                                                                garden::BedId bed,
                                                                const BareSpell& spell);

/// nitrogen-surplus: what an idle bed holds as winter begins in `week`; empty where it is little.
[[nodiscard]] std::optional<Leftover> leftover_in(const ledger::BedState& after,
                                                  calendar::Week week,
                                                  const garden::Planting* last_stand,
                                                  const catalogue::Coefficients& k);
[[nodiscard]] std::optional<diagnostic::Diagnostic> tell_leftover(const garden::Garden& garden,
                                                                  garden::BedId bed,
                                                                  const Leftover& left);

}  // namespace aftercrop::check
