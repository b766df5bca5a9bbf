#pragma once

#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/ledger/account.h"
#include "aftercrop/rules/rule.h"

namespace aftercrop::check {

/// What is judged, and how strictly it is told.
struct Scope {
  bool history_only = false;   ///< the garden's own past is on trial
  bool planned = false;        ///< a plan of ours: its shortfalls are doses already
  bool clubroot_seen = false;  ///< covers bind like crops
};

/// A breach of one stand, as severe as garden, record and exceptions make it.
struct Told {
  rules::Breach breach;
  std::size_t line = 0;  ///< place in `lines`
  diagnostic::Severity severity = diagnostic::Severity::Warning;
  const garden::Exception* accepted = nullptr;
};

/// Two stands in one section.
struct Overlap {
  const garden::Planting* later = nullptr;
  const garden::Planting* earlier = nullptr;
  int days = 0;
};

/// A winter of bare ground.
struct BareSpell {
  calendar::Week first;
  int weeks = 0;
};

/// Mineral nitrogen left where winter begins.
struct Leftover {
  calendar::Week week;
  double kg_ha = 0.0;  ///< over what a soil keeps
  double band_kg_ha = 0.0;
  const garden::Planting* after = nullptr;  ///< the last stand before it; null = none
};

/// Everything that rules say of one bed with one list of plantings.
struct BedRun {
  std::vector<const garden::Planting*> plantings;
  std::vector<ledger::StandLine> lines;
  std::vector<Told> told;
  std::vector<Overlap> overlaps;
  std::vector<BareSpell> winters;
  std::vector<Leftover> leftovers;
  int errors = 0;
  int warnings = 0;
};

/// How severe a finding of a setting is; settings that are off make none.
[[nodiscard]] diagnostic::Severity severity_of(garden::Setting setting);

/// One bed on trial: any list of plantings is walked through the ledger and put to the rules.
class BedCase {
 public:
  /// All references must outlive the case.
  BedCase(const garden::Garden& garden, const ledger::BedLedger& ledger, garden::BedId bed,
          const Scope& scope)
      : garden_(&garden), ledger_(&ledger), bed_(bed), scope_(scope) {}

  /// `plantings` in order of start; they must outlive the run.
  [[nodiscard]] BedRun run(std::vector<const garden::Planting*> plantings) const;
  [[nodiscard]] garden::BedId bed() const { return bed_; }
  [[nodiscard]] const ledger::BedLedger& ledger() const { return *ledger_; }
  [[nodiscard]] const Scope& scope() const { return scope_; }
  /// Rules about one stand in a known state: whether any forbids it, and what they say.
  [[nodiscard]] bool forbidden(const ledger::BedState& before, const ledger::Stand& stand,
                               rules::Breaches& out) const;

 private:
  void judge_line(std::size_t line, BedRun& run) const;
  void count(BedRun& run) const;

  const garden::Garden* garden_;
  const ledger::BedLedger* ledger_;
  garden::BedId bed_;
  Scope scope_;
};

}  // namespace aftercrop::check
