// host-return: a crop of another family that feeds the same soil-borne trouble comes too soon.
// Bad: strawberry two years after tomato (Verticillium). Good: strawberry after sweet corn.
// Source of the pairs: the rows of the host-return table.
#include <algorithm>

#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "University of Connecticut IPM, rotation table (published)",
    "Ohio State University fact sheet, as quoted (published)"};
constexpr double kWeeksPerYear = 365.25 / 7.0;

bool seen_here(const Occasion& occasion, catalogue::PathogenId pathogen) {
  if (!pathogen.known()) return true;
  const auto& tracked = occasion.ledger.tracked();
  const auto at = std::find(tracked.begin(), tracked.end(), pathogen);
  return at != tracked.end() &&
         occasion.before.loads[static_cast<std::size_t>(at - tracked.begin())].seen;
}

void judge_pairs(const Occasion& occasion, Breaches& out) {
  const auto& rows = occasion.catalogue().host_returns;
  for (std::size_t row = 0; row < rows.size() && row < ledger::kMostReturns; ++row) {
    if ((occasion.stand.returns_as_next >> row & 1U) == 0U) continue;
    const int last = occasion.before.return_season[row];
    if (last == ledger::kNeverSeason || !seen_here(occasion, rows[row].if_seen)) continue;
    const int between = occasion.stand.season_as_next - last - 1;
    if (between < 0 || between >= std::max(rows[row].min, rows[row].rec)) continue;
    Breach breach;
    breach.rule = garden::RuleId::HostReturn;
    breach.level = between < rows[row].min ? 0 : 1;
    breach.computed = between;
    breach.limit = breach.level == 0 ? rows[row].min : rows[row].rec;
    breach.unit = "seasons between";
    breach.detail = static_cast<int>(row);
    out.push_back(breach);
  }
}

void judge_sighted(const Occasion& occasion, Breaches& out) {
  for (std::size_t i = 0; i < occasion.before.loads.size(); ++i) {
    const ledger::Load& load = occasion.before.loads[i];
    if (!load.seen || !occasion.stand.loads[i].prone || load.hosted == ledger::kNever) continue;
    const catalogue::PathogenId id = occasion.ledger.tracked()[i];
    const double years = (occasion.before.week - load.hosted).count() / kWeeksPerYear;
    const double asked = occasion.catalogue().pathogen(id).break_years.typical;
    if (years >= asked) continue;
    Breach breach;
    breach.rule = garden::RuleId::HostReturn;
    breach.level = 1;
    breach.computed = years;
    breach.limit = asked;
    breach.unit = "years";
    breach.pathogen = id;
    breach.detail = -1;
    out.push_back(breach);
  }
}

void judge(const Occasion& occasion, Breaches& out) {
  judge_pairs(occasion, out);
  if (!occasion.stand.cover) judge_sighted(occasion, out);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  if (breach.detail < 0) {
    const catalogue::Pathogen& pathogen = occasion.catalogue().pathogen(breach.pathogen);
    words.message = fmt::format(
        "{} {:.1f} years after the last host of {}, which was seen here; {:.0f} advised",
        occasion.crop().name, breach.computed, pathogen.name, breach.limit);
    words.help = fmt::format("sources ask for {:.0f} to {:.0f} years; take another bed if you can",
                             pathogen.break_years.low, pathogen.break_years.high);
    return words;
  }
  const auto& row = occasion.catalogue().host_returns[static_cast<std::size_t>(breach.detail)];
  words.message =
      fmt::format("{} with {} season{} since a crop that shares its troubles, {} advised",
                  occasion.crop().name, static_cast<int>(breach.computed),
                  breach.computed == 1 ? "" : "s", static_cast<int>(breach.limit));
  words.help = fmt::format("{}; wait, or take another bed", row.reason);
  words.related = "it stood here";
  return words;
}

}  // namespace

Rule host_return() {
  return {garden::RuleId::HostReturn, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
