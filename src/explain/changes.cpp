#include "aftercrop/explain/changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "aftercrop/check/bed_run.h"
#include "aftercrop/ledger/walk.h"

namespace aftercrop::explain {
namespace {

using garden::Planting;

constexpr int kMovedDays = 56;

bool same(const Planting& a, const Planting& b) {
  return a.bed == b.bed && a.crop == b.crop && garden::weeks_of(a) == garden::weeks_of(b) &&
         a.ending == b.ending;
}

/// Why an earlier stand could not stay: a rule, or a stand that was done; empty if it could.
std::string forced(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                   const check::BedRun& run, const Planting& stand) {
  for (const check::Overlap& overlap : run.overlaps) {
    if (overlap.later != &stand) continue;
    return fmt::format("{} is in the bed until {}", catalogue.crop(overlap.earlier->crop).name,
                       overlap.earlier->to.text());
  }
  for (const check::Told& told : run.told) {
    const bool ours = run.lines[told.line].planting == &stand;
    if (!ours || told.severity < diagnostic::Severity::Error) continue;
    return fmt::format("{} forbids it now", garden::card(told.breach.rule).name);
  }
  if (garden::weeks_of(stand).first < garden.seasons.first) return "its day has passed";
  return {};
}

/// What stands there now instead.
std::string taken_by(const Planting& was, const garden::Plan& later,
                     const catalogue::Catalogue& catalogue) {
  for (const Planting& now : later.plantings) {
    const bool meets = now.bed == was.bed && now.from < was.to && was.from < now.to;
    if (!meets) continue;
    return fmt::format("{} stands there from {} to {}", catalogue.crop(now.crop).name,
                       now.from.text(), now.to.text());
  }
  return "it brings less now than it costs";
}

/// Every earlier stand of one bed with the reason that forces it out.
void tell_gone(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
               const check::BedRun& run, const std::vector<const Planting*>& gone,
               const garden::Plan& later, std::vector<PlanChange>& out) {
  for (const Planting* was : gone) {
    PlanChange change{PlanChange::Kind::Gone, was->bed, was, nullptr, {}};
    change.why = forced(garden, catalogue, run, *was);
    if (change.why.empty()) change.why = taken_by(*was, later, catalogue);
    out.push_back(std::move(change));
  }
}

std::string why_new(const Planting& now, const std::vector<Planting>& done,
                    const catalogue::Catalogue& catalogue) {
  for (const Planting& one : done) {
    if (one.bed == now.bed && one.ending == catalogue::Ending::Failed && one.to <= now.from) {
      return fmt::format("in the place of the {} that failed", catalogue.crop(one.crop).name);
    }
  }
  for (const Planting& one : done) {
    if (one.crop == now.crop && one.ending == catalogue::Ending::Failed) {
      return "makes up for what failed";
    }
  }
  return "worth more than the change costs";
}

}  // namespace

Resumed resume(const garden::Plan& plan, calendar::Date as_of) {
  Resumed out;
  for (const Planting& planting : plan.plantings) {
    const bool failed = planting.ending == catalogue::Ending::Failed;
    if (planting.from >= as_of) {
      if (!failed) out.ahead.push_back(planting);
      continue;
    }
    Planting done = planting;
    done.kept = true;
    if (failed && done.to > as_of) done.to = std::max(done.from.plus_days(1), as_of);
    if (failed) done.harvest.reset();
    out.done.push_back(std::move(done));
  }
  return out;
}

std::vector<PlanChange> changes(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                                const ledger::SiteClimates& climates, const Resumed& earlier,
                                const garden::Plan& later) {
  std::vector<PlanChange> out;
  const auto tracked = ledger::tracked_pathogens(garden, catalogue, true);
  check::Scope scope;
  scope.planned = true;
  scope.clubroot_seen = rules::covers_bind(garden, catalogue);
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    const garden::BedId bed(i);
    std::vector<const Planting*> gone;
    std::vector<const Planting*> fresh;
    for (const Planting& was : earlier.ahead) {
      const bool stays = std::any_of(later.plantings.begin(), later.plantings.end(),
                                     [&](const Planting& now) { return same(was, now); });
      if (was.bed == bed && !stays) gone.push_back(&was);
    }
    for (const Planting& now : later.plantings) {
      const auto equal = [&](const Planting& was) { return same(was, now); };
      if (now.bed != bed || now.kept ||
          std::any_of(earlier.ahead.begin(), earlier.ahead.end(), equal)) {
        continue;
      }
      const auto from = std::find_if(gone.begin(), gone.end(), [&](const Planting* was) {
        return was->crop == now.crop &&
               std::abs(calendar::days_between(was->from, now.from)) <= kMovedDays;
      });
      if (from == gone.end()) {
        fresh.push_back(&now);
        continue;
      }
      out.push_back({PlanChange::Kind::Moved, bed, *from, &now, "the bed is free at another time"});
      gone.erase(from);
    }
    if (!gone.empty()) {
      const ledger::BedLedger ledger(catalogue, garden, bed, climates.of(garden.beds[i].shelter),
                                     tracked);
      const check::BedRun run = check::BedCase(garden, ledger, bed, scope)
                                    .run(ledger::plantings_of(bed, garden.history, earlier.ahead));
      tell_gone(garden, catalogue, run, gone, later, out);
    }
    for (const Planting* now : fresh) {
      out.push_back(
          {PlanChange::Kind::New, bed, nullptr, now, why_new(*now, earlier.done, catalogue)});
    }
  }
  return out;
}

}  // namespace aftercrop::explain
