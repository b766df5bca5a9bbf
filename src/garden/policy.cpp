#include "aftercrop/garden/policy.h"

namespace aftercrop::garden {

const std::array<RuleCard, kRuleCount> kRuleCards = {{
    {RuleId::BedDoubleBooked, "bed-double-booked", Setting::Require,
     "two stands share one section on the same days"},
    {RuleId::NeverFree, "never-free", Setting::Require,
     "a stand cannot be cleared before the next one begins"},
    {RuleId::FamilyBreak, "family-break", Setting::Require,
     "a crop family comes back to a bed before its break is over"},
    {RuleId::ProneOnInfected, "prone-on-infected", Setting::Require,
     "a prone crop on a bed that carries too much of its disease"},
    {RuleId::HostReturn, "host-return", Setting::Warn,
     "a crop of another family feeds the same soil-borne trouble too soon"},
    {RuleId::SownOutOfWindow, "sown-out-of-window", Setting::Require,
     "sown or set out when it is too cold, too hot or too late in the year"},
    {RuleId::FrostBeforeHarvest, "frost-before-harvest", Setting::Require,
     "frost ends the crop before it has given its harvest"},
    {RuleId::PlantBack, "plant-back", Setting::Require,
     "fresh or growth-checking residue lies where seed is sown too soon"},
    {RuleId::Immobilisation, "immobilisation", Setting::Warn,
     "straw-like residue ties up nitrogen just before a crop needs it"},
    {RuleId::BiofumigantUnready, "biofumigant-unready", Setting::Warn,
     "a biofumigant ended at the wrong stage, too cold, or too soon before the next crop"},
    {RuleId::LegumeBeforeHeavyFeeder, "legume-before-heavy-feeder", Setting::Warn,
     "a heavy feeder without a legume, cut and its roots left, before it"},
    {RuleId::BiofumigantBeforeProne, "biofumigant-before-prone", Setting::Warn,
     "a prone crop on a bed with its disease, without a full break or a biofumigant before it"},
    {RuleId::NitrogenShort, "nitrogen-short", Setting::Warn,
     "the bed offers less nitrogen than the crop needs"},
    {RuleId::NitrogenSurplus, "nitrogen-surplus", Setting::Warn,
     "nitrogen is left in the bed before the wet season can wash it out"},
    {RuleId::RootsPulled, "roots-pulled", Setting::Warn,
     "a legume is pulled with its roots and its credit is thrown away"},
    {RuleId::CoverEndedLate, "cover-ended-late", Setting::Warn,
     "a cover stands until it has gone to seed or straw"},
    {RuleId::BareWinter, "bare-winter", Setting::Warn,
     "bare ground through the wet or freezing season"},
    {RuleId::WantUnmet, "want-unmet", Setting::Warn, "a want is not met by the plan"},
    {RuleId::SeedlingBesideSuppressor, "seedling-beside-suppressor", Setting::Warn,
     "small seed is sown beside a plant that holds seedlings back"},
    {RuleId::PartnerMissing, "partner-missing", Setting::Note,
     "a pest of this garden has a partner plant that is not there"},
    {RuleId::ManureBeforeHarvest, "manure-before-harvest", Setting::Require,
     "raw manure too few days before a harvest that is eaten"},
    {RuleId::TestDisagrees, "test-disagrees", Setting::Warn,
     "a soil test and the ledger are further apart than both allow"},
}};

const RuleCard& card(RuleId id) { return kRuleCards[static_cast<std::size_t>(id)]; }

std::optional<RuleId> parse_rule(std::string_view name) {
  for (const RuleCard& one : kRuleCards) {
    if (one.name == name) return one.id;
  }
  return {};
}

std::string_view name(Setting setting) {
  switch (setting) {
    case Setting::Off:
      return "off";
    case Setting::Note:
      return "note";
    case Setting::Warn:
      return "warn";
    case Setting::Require:
      break;
  }
  return "require";
}

std::optional<Setting> parse_setting(std::string_view text) {
  for (const Setting one : {Setting::Off, Setting::Note, Setting::Warn, Setting::Require}) {
    if (name(one) == text) return one;
  }
  return {};
}

Policy::Policy() : settings() {
  for (std::size_t i = 0; i < kRuleCount; ++i) settings[i] = kRuleCards[i].setting;
}

}  // namespace aftercrop::garden
