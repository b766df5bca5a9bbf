// cover-ended-late: a cover stands until it sets seed or turns to straw.
// Bad: buckwheat left nine weeks in summer. Good: cut at flower.
// Source: stage from thermal time; nitrogen content by stage from the cover's row.
#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Bjorkman, Cover Crop Guide for New York Growers, Cornell (published)"};

void look_at_stand(const Occasion& occasion, Breaches& out) {
  const ledger::Stand& stand = occasion.stand;
  if (!stand.cover || stand.spec.ending == catalogue::Ending::Winterkilled) return;
  const double seed = occasion.catalogue().coefficients.site.covers.seed_progress;
  if (occasion.crop().perennial() || stand.progress.flower <= seed) return;
  Breach breach;
  breach.rule = garden::RuleId::CoverEndedLate;
  breach.computed = stand.progress.flower;
  breach.limit = seed;
  breach.unit = "of the time to first flower";
  out.push_back(breach);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  words.message = fmt::format("{} stands {:.1f} times as long as to first flower, seed from {:.1f}",
                              occasion.crop().name, breach.computed, breach.limit);
  words.help = "end it at flower: it then holds most nitrogen and does not seed itself";
  return words;
}

}  // namespace

Rule cover_ended_late() {
  return {garden::RuleId::CoverEndedLate, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
