#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::garden {

/// How a garden treats a rule.
enum class Setting { Off, Note, Warn, Require };

enum class RuleId {
  BedDoubleBooked,
  NeverFree,
  FamilyBreak,
  ProneOnInfected,
  HostReturn,
  SownOutOfWindow,
  FrostBeforeHarvest,
  PlantBack,
  Immobilisation,
  BiofumigantUnready,
  LegumeBeforeHeavyFeeder,
  BiofumigantBeforeProne,
  NitrogenShort,
  NitrogenSurplus,
  RootsPulled,
  CoverEndedLate,
  BareWinter,
  WantUnmet,
  SeedlingBesideSuppressor,
  PartnerMissing,
  ManureBeforeHarvest,
  TestDisagrees,
};
inline constexpr std::size_t kRuleCount = 22;

/// Name, default setting and one sentence of a rule. Two-level rules (family-break,
/// prone-on-infected) have the lower level one step below.
struct RuleCard {
  RuleId id;
  std::string_view name;
  Setting setting;
  std::string_view summary;
};

/// In the order of RuleId.
extern const std::array<RuleCard, kRuleCount> kRuleCards;

[[nodiscard]] const RuleCard& card(RuleId id);
[[nodiscard]] std::optional<RuleId> parse_rule(std::string_view name);
[[nodiscard]] std::string_view name(Setting setting);
[[nodiscard]] std::optional<Setting> parse_setting(std::string_view text);

/// An exception that stays on the record: an error there becomes a note.
struct Exception {
  std::string bed;  ///< name of a bed or section
  RuleId rule = RuleId::FamilyBreak;
  std::optional<calendar::Date> until;
  std::string because;
  diagnostic::Source source;
};

/// The garden's settings of all rules.
struct Policy {
  std::array<Setting, kRuleCount> settings;
  std::vector<Exception> exceptions;

  Policy();
  [[nodiscard]] Setting of(RuleId id) const { return settings[static_cast<std::size_t>(id)]; }
};

}  // namespace aftercrop::garden
