#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::explain {

/// Which stand or idle week is asked about.
struct Question {
  garden::BedId bed;
  calendar::Week week;
  std::optional<catalogue::CropId> crop;  ///< "why not this one?"
};

/// A quantity that a sentence speaks of.
struct Amount {
  double value = 0.0;
  garden::WantUnit unit = garden::WantUnit::Kilograms;
};
inline constexpr char kAmount = '\x01';

/// One reason in a grower's words.
struct Reason {
  enum class Kind { Decided, Want, Cover, Nitrogen, Winter, Rule, Window, Idle };
  Kind kind = Kind::Want;
  std::string words;                 ///< an amount stands where kAmount is
  std::vector<Amount> amounts = {};  ///< in order, for each front to print in its own units
};
[[nodiscard]] std::string_view name(Reason::Kind kind);

/// A stand that could take the place, worked out by putting it there.
struct Option {
  garden::Planting planting;
  double value_change = 0.0;       ///< of the plan's value, in the objective's own measure
  double nitrogen_change_g = 0.0;  ///< to buy for this bed, all seasons; less than 0 = saved
  /// What rules say of it, and of others because of it, that they do not say now.
  std::vector<diagnostic::Diagnostic> findings;
  bool allowed = true;  ///< no required rule forbids it
};

struct Explanation {
  garden::BedId bed;
  calendar::Week week;
  const garden::Planting* stands = nullptr;  ///< of garden or plan; null = no stand
  const garden::Planting* next = nullptr;    ///< what follows in the bed; null = nothing
  calendar::WeekSpan room;                   ///< free weeks if the stand were not there
  double plan_value = 0.0;
  double share_of_value = 0.0;  ///< of the plan's value that the stand brings
  std::vector<Reason> reasons;
  std::optional<Option> asked;
  std::vector<Option>
      others;  ///< allowed ones, best value first; the stand itself is not among them
};

/// Why this stands here, why not that, and what else could. The stand, each option and an idle bed
/// are put in its place in turn, walked through the ledger, put to the rules and valued by the
/// search's own objective. Options are the wanted crops and all covers, in the free weeks around
/// the question, and what is asked for. `garden`, `catalogue` and `plan` must outlive the result.
[[nodiscard]] Explanation explain(const garden::Garden& garden,
                                  const catalogue::Catalogue& catalogue,
                                  const ledger::SiteClimates& climates, const garden::Plan& plan,
                                  const Question& question);

/// Reasons by planting.
using PlanReasons = std::map<const garden::Planting*, std::vector<Reason>>;

/// For every stand of the accounts what `explain` says of it from the ledger alone, nothing tried
/// in its place: who decided it, what it earns, which breaks and diseases bind. `accounts` = of
/// all beds, so that wants are shared out as they are.
[[nodiscard]] PlanReasons reasons_of_plan(const garden::Garden& garden,
                                          const catalogue::Catalogue& catalogue,
                                          const std::vector<ledger::BedAccount>& accounts);

}  // namespace aftercrop::explain
