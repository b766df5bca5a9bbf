#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/garden/policy.h"
#include "aftercrop/ledger/bed_ledger.h"
#include "aftercrop/ledger/bed_state.h"
#include "aftercrop/ledger/stand.h"

namespace aftercrop::rules {

/// What a rule looks at: a stand about to enter a bed in a known state.
struct Occasion {
  const ledger::BedLedger& ledger;
  const ledger::BedState& before;
  const ledger::Stand& stand;
  bool clubroot_seen = false;  ///< a trigger pathogen of covers was seen in the garden

  [[nodiscard]] const catalogue::Catalogue& catalogue() const { return ledger.catalogue(); }
  [[nodiscard]] const catalogue::Crop& crop() const {
    return ledger.catalogue().crop(stand.spec.crop);
  }
};

/// A rule that is not kept, as numbers; words come from `describe`.
struct Breach {
  garden::RuleId rule = garden::RuleId::FamilyBreak;
  int level = 0;  ///< 0 = the garden's setting, 1 = one step below, 2 = two below
  double computed = 0.0;
  double limit = 0.0;
  std::string_view unit;
  catalogue::CropId other;  ///< the forecrop or partner it is about
  calendar::Week other_week = ledger::kNever;
  catalogue::PathogenId pathogen;
  int detail = 0;  ///< the rule's own
};
using Breaches = std::vector<Breach>;

/// What a person reads of a breach.
struct Words {
  std::string message;                       ///< one phrase that stands alone
  std::string help;                          ///< a way out
  std::string related;                       ///< what is said of the other place; empty = none
  std::vector<std::string> references = {};  ///< of this breach; empty = the rule's
};

/// One rule: judges a stand before it starts, or by what came of it.
struct Rule {
  garden::RuleId id;
  /// Needs the state before the stand; null if the rule does not look there.
  void (*judge)(const Occasion&, Breaches&);
  /// Needs nothing but the stand itself (climate, ending): asked once an arc by the sequencer.
  void (*judge_stand)(const Occasion&, Breaches&);
  /// Needs what the stand did in the bed.
  void (*judge_outcome)(const Occasion&, const ledger::StandOutcome&, Breaches&);
  Words (*describe)(const Breach&, const Occasion&);
  std::span<const std::string_view> references;
};

/// The table of rules about stands, in the order of their ids.
[[nodiscard]] std::span<const Rule> stand_rules();
[[nodiscard]] const Rule* find_rule(garden::RuleId id);

/// The setting that a breach of `level` meets: each level is one step below the rule's.
[[nodiscard]] garden::Setting setting_of(const Breach& breach, const garden::Policy& policy);

/// True where a grower's exception covers this bed, rule and week.
[[nodiscard]] const garden::Exception* exception_for(const garden::Policy& policy,
                                                     const garden::Bed& bed, garden::RuleId rule,
                                                     calendar::Week week);

/// Asks all rules that need the state before the stand.
void judge_before(const Occasion& occasion, Breaches& out);
/// Asks all rules that need only the stand.
void judge_stand(const Occasion& occasion, Breaches& out);
/// Asks all rules that need its outcome.
void judge_outcome(const Occasion& occasion, const ledger::StandOutcome& outcome, Breaches& out);

/// Was a pathogen seen anywhere in the garden that makes covers bind like crops?
[[nodiscard]] bool covers_bind(const garden::Garden& garden, const catalogue::Catalogue& catalogue);

}  // namespace aftercrop::rules
