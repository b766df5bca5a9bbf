// test-disagrees: a soil test and the ledger are further apart than the larger of the digits typed
// and a quarter of the test. The test is believed from then on.
#include <fmt/format.h>

#include <cmath>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/garden/measure_text.h"
#include "check/garden_rules.h"

namespace aftercrop::check {
namespace {

using garden::RuleId;

std::string message_of(const ledger::TestLine& test, const Ground& ground) {
  const char* const more = test.difference() > 0.0 ? "more" : "less";
  if (test.disease.known()) {
    return fmt::format(
        "the test of {} finds {} at {:.2f} of its threshold, {:.2f} {} than the "
        "ledger's {:.2f}",
        test.test->date.text(), ground.catalogue.pathogen(test.disease).name, test.computed,
        std::abs(test.difference()), more, test.expected);
  }
  const auto amount = [&](double kg_per_ha) {
    return garden::nitrogen_text(kg_per_ha, ground.garden.bed(test.test->bed), ground.garden.units);
  };
  return fmt::format(
      "the test of {} ({}) says {} of nitrate nitrogen in this bed, {} {} than the ledger's {} ({} "
      "is within doubt)",
      test.test->date.text(), diagnostic::printable(test.test->typed), amount(test.computed),
      amount(std::abs(test.difference())), more, amount(test.expected), amount(test.tolerance));
}

/// Both readings of a number that fits the ledger in the other unit only.
std::string readings_of(const ledger::TestLine& test, const Ground& ground) {
  const garden::SoilTest& typed = *test.test;
  const auto amount = [&](double kg_per_ha) {
    return garden::nitrogen_text(kg_per_ha, ground.garden.bed(typed.bed), ground.garden.units);
  };
  return fmt::format(
      "read as {} it is {}, read as {:g} {} it would be {}, which fits the ledger: look which unit "
      "the laboratory wrote",
      diagnostic::printable(typed.typed), amount(test.computed), typed.typed_number,
      typed.typed_as_ppm ? "kg/ha" : "ppm", amount(test.other_reading));
}

std::string help_of(const ledger::TestLine& test, const Ground& ground) {
  if (test.wrong_unit()) return readings_of(test, ground);
  if (test.difference() > 0.0) {
    return "the ledger goes on from the test; look for manure, compost or residues that are not in "
           "the garden file";
  }
  return "the ledger goes on from the test; look for harvests, washing out or a depth that are not "
         "in the garden file";
}

}  // namespace

void judge_tests(const Ground& ground, const std::vector<ledger::BedAccount>& accounts,
                 diagnostic::Diagnostics& out) {
  if (!finding_of(ground.garden, RuleId::TestDisagrees)) return;
  for (const ledger::BedAccount& account : accounts) {
    for (const ledger::TestLine& test : account.tests) {
      if (test.agrees() || test.test == nullptr) continue;
      auto finding = finding_of(ground.garden, RuleId::TestDisagrees);
      const garden::Bed& bed = ground.garden.bed(test.test->bed);
      finding->message = message_of(test, ground);
      finding->help = help_of(test, ground);
      finding->source = test.test->source;
      finding->bed = bed.name;
      finding->week = test.week;
      finding->cause =
          test.disease.known() ? ground.catalogue.pathogen(test.disease).id : "nitrate";
      finding->measure =
          diagnostic::Measure{test.difference(), test.tolerance,
                              test.disease.known() ? "of the damage threshold" : "kg N/ha"};
      finding->references = {"a quarter of the test, or the digits typed: our choice"};
      if (const auto* exception =
              rules::exception_for(ground.garden.policy, bed, RuleId::TestDisagrees, test.week)) {
        finding->severity = diagnostic::Severity::Note;
        finding->help = fmt::format("accepted: {}", exception->because);
      }
      out.add(std::move(*finding));
    }
  }
}

}  // namespace aftercrop::check
