#pragma once

#include <optional>
#include <vector>

#include "aftercrop/check/bed_run.h"
#include "aftercrop/explain/explain.h"
#include "aftercrop/garden/want_met.h"
#include "aftercrop/sequencer/appraisal.h"

namespace aftercrop::explain {

/// The bed that is asked about, with everything that trying a stand in it needs.
class Place {
 public:
  /// All references must outlive the place.
  Place(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
        const ledger::SiteClimates& climates, const garden::Plan& plan, const Question& question);

  [[nodiscard]] const garden::Garden& garden() const { return *garden_; }
  [[nodiscard]] const catalogue::Catalogue& catalogue() const { return *catalogue_; }
  [[nodiscard]] const climate::SiteClimate& site() const { return ledger_.site(); }
  [[nodiscard]] const ledger::BedLedger& ledger() const { return ledger_; }
  [[nodiscard]] const garden::Bed& bed() const { return ledger_.bed(); }
  [[nodiscard]] garden::BedId bed_id() const { return bed_; }
  [[nodiscard]] const garden::Planting* stands() const { return stands_; }
  [[nodiscard]] const garden::Planting* next() const { return next_; }
  [[nodiscard]] calendar::WeekSpan room() const { return room_; }
  [[nodiscard]] const check::BedRun& now() const { return now_; }
  [[nodiscard]] const sequencer::Value& value() const { return value_; }
  /// The line of the stand in `now()`; null for idle ground.
  [[nodiscard]] const ledger::StandLine* line() const;

  /// What the bed is with something else, or nothing, in the stand's place.
  struct Trial {
    check::BedRun run;
    sequencer::Value value;
    double bought_g = 0.0;  ///< nitrogen for this bed
  };
  /// `instead` must outlive the trial.
  [[nodiscard]] Trial with(const garden::Planting* instead) const;
  [[nodiscard]] bool planned() const { return case_.scope().planned; }
  [[nodiscard]] double bought_now_g() const { return bought_now_g_; }
  /// What can be said of the stand without trying another; there must be one.
  [[nodiscard]] std::vector<Reason> standing_reasons() const;
  /// What rules say in `trial`, severity warning or more, that they do not say now.
  [[nodiscard]] std::vector<diagnostic::Diagnostic> new_findings(const Trial& trial) const;

 private:
  [[nodiscard]] std::vector<const garden::Planting*> list_with(
      const garden::Planting* instead) const;
  void find_room(calendar::Week week);

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const garden::Plan* plan_;
  garden::BedId bed_;
  ledger::BedLedger ledger_;
  check::BedCase case_;
  sequencer::Appraisal appraisal_;
  check::BedRun now_;
  sequencer::Value value_;
  double bought_now_g_ = 0.0;
  const garden::Planting* stands_ = nullptr;
  const garden::Planting* next_ = nullptr;
  calendar::WeekSpan room_;
};

/// Reasons for what stands, or for idle ground.
[[nodiscard]] std::vector<Reason> reasons(const Place& place, const std::vector<Option>& others);

/// Everything that could stand there instead, best value first; only what rules allow.
[[nodiscard]] std::vector<Option> options(const Place& place);
/// The crop in the room that there is, in its best week, allowed or not; empty where it does not
/// ripen there at all, or its stand is longer than the room: `why_not` says so.
[[nodiscard]] std::optional<Option> best_option(const Place& place, catalogue::CropId crop);

}  // namespace aftercrop::explain
