// sown-out-of-window: sown or set out when it is too cold, too hot or too late here.
// Bad: tomato set out in April at a site with its last frost in May. Good: a fortnight after it.
// Sources: Purdue HO-203 after Univ. of Illinois VC-14; Knott's Handbook 1997; germination after
// Harrington and Minges 1954.
#include <fmt/format.h>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/climate/window.h"
#include "aftercrop/rules/window_words.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Purdue Univ. Coop. Ext. HO-203, after Univ. of Illinois VC-14 (published)",
    "Knott's Handbook for Vegetable Growers, 1997 edition (published)"};
constexpr int kSearchWeeks = 60;

void look_at_stand(const Occasion& occasion, Breaches& out) {
  // Set out in the dormant season, by custom of the place, unless that custom is written down.
  if (occasion.crop().perennial() && occasion.crop().local_calendar.empty()) return;
  const climate::WindowVerdict verdict = climate::judge_start(
      occasion.crop(), occasion.ledger.site(), occasion.stand.spec.weeks.first);
  if (verdict.open()) return;
  Breach breach;
  breach.rule = garden::RuleId::SownOutOfWindow;
  breach.computed = verdict.computed;
  breach.limit = verdict.limit;
  breach.unit = verdict.unit;
  breach.detail = static_cast<int>(verdict.why);
  out.push_back(breach);
}

climate::WindowVerdict verdict_of(const Breach& breach) {
  return {static_cast<climate::OutOfWindow>(breach.detail), breach.computed, breach.limit,
          breach.unit};
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const climate::SiteClimate& site = occasion.ledger.site();
  Words words;
  words.message = fmt::format("{} started {} ({})", occasion.crop().name,
                              why_shut(verdict_of(breach), occasion.crop(), site),
                              window_figures(verdict_of(breach), occasion.ledger.garden().units));
  if (verdict_of(breach).why == climate::OutOfWindow::LocalCalendar) {
    if (const auto* said = catalogue::source_of(occasion.crop().sources, "calendar")) {
      words.references.push_back(catalogue::with_grade(*said));
    }
  }
  const calendar::Week start = occasion.stand.spec.weeks.first;
  for (int i = 1; i <= kSearchWeeks; ++i) {
    const calendar::Week week = start + calendar::Weeks(i);
    if (!climate::judge_start(occasion.crop(), site, week).open()) continue;
    words.help = fmt::format("the next open week begins on {}", calendar::monday(week).text());
    return words;
  }
  words.help = "this site has no open week for it within a year";
  return words;
}

}  // namespace

Rule sown_out_of_window() {
  return {garden::RuleId::SownOutOfWindow, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
