#include "check/garden_rules.h"

namespace aftercrop::check {

std::optional<diagnostic::Diagnostic> finding_of(const garden::Garden& garden, garden::RuleId rule,
                                                 int below) {
  rules::Breach breach;
  breach.rule = rule;
  breach.level = below;
  const garden::Setting setting = rules::setting_of(breach, garden.policy);
  if (setting == garden::Setting::Off) return {};
  diagnostic::Diagnostic finding;
  finding.id = std::string(garden::card(rule).name);
  finding.severity = severity_of(setting);
  return finding;
}

}  // namespace aftercrop::check
