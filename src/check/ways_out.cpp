#include "check/ways_out.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/ledger/walk.h"

namespace aftercrop::check {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using diagnostic::Severity;
using garden::Planting;
using garden::RuleId;

/// Weeks that are lived through for the ways of one plan: a bound on time that does not hang on the
/// machine.
constexpr int kMostWeeks = 300000;
constexpr int kSameWinter = 8;  // weeks apart
constexpr int kMostLater = 60;  // weeks that a start is moved at most
constexpr int kWaits = 12;      // weeks that residue is waited for at most

/// Weeks from the first stand to the last.
int weeks_of_run(const BedRun& run) {
  if (run.lines.empty()) return 1;
  return (run.lines.back().stand.spec.weeks.past - run.lines.front().before.week).count() + 1;
}

bool ours(const Planting* planting, const WayOut& way, const Trouble& trouble) {
  // Of a swap, what came into the other bed must hear nothing of the rule either.
  return planting == trouble.planting ||
         std::any_of(way.changes.begin(), way.changes.end(),
                     [&](const Change& change) { return planting == &change.instead; });
}

bool still_told(const BedRun& run, const Trouble& trouble, const WayOut& way) {
  switch (trouble.rule) {
    case RuleId::BareWinter:
      return std::any_of(run.winters.begin(), run.winters.end(), [&](const BareSpell& spell) {
        return spell.first < trouble.weeks.past &&
               trouble.weeks.first < spell.first + Weeks(spell.weeks);
      });
    case RuleId::NitrogenSurplus:
      return std::any_of(run.leftovers.begin(), run.leftovers.end(), [&](const Leftover& left) {
        return left.week + Weeks(kSameWinter) > trouble.weeks.first &&
               left.week < trouble.weeks.first + Weeks(kSameWinter);
      });
    case RuleId::BedDoubleBooked:
      return std::any_of(run.overlaps.begin(), run.overlaps.end(), [&](const Overlap& one) {
        return ours(one.later, way, trouble) || ours(one.earlier, way, trouble);
      });
    default:
      break;
  }
  return std::any_of(run.told.begin(), run.told.end(), [&](const Told& told) {
    return told.breach.rule == trouble.rule && told.severity >= Severity::Warning &&
           ours(run.lines[told.line].planting, way, trouble);
  });
}

/// What is wrong with a stand, in the terms in which a grower would put it right.
enum class Fault { Ground, Hunger, Haste, Ending, Season };

Fault fault_of(RuleId rule) {
  switch (rule) {
    case RuleId::FamilyBreak:
    case RuleId::ProneOnInfected:
    case RuleId::HostReturn:
    case RuleId::BiofumigantBeforeProne:
      return Fault::Ground;
    case RuleId::LegumeBeforeHeavyFeeder:
    case RuleId::NitrogenShort:
      return Fault::Hunger;
    case RuleId::PlantBack:
    case RuleId::Immobilisation:
    case RuleId::NeverFree:
      return Fault::Haste;
    case RuleId::RootsPulled:
    case RuleId::CoverEndedLate:
    case RuleId::BiofumigantUnready:
      return Fault::Ending;
    default:
      return Fault::Season;
  }
}

}  // namespace

bool WayFinder::tired() const { return lived_ >= kMostWeeks; }

std::optional<WayOut> WayFinder::find(const Trouble& trouble) {
  if (tired()) return {};
  std::optional<WayOut> second_best;
  for (WayOut& way : offers(trouble)) {
    if (quickly_out(way, trouble)) continue;
    if (works(way, trouble)) {
      if (!way.warns) return std::move(way);
      if (!second_best) second_best = std::move(way);
    }
    if (tired()) break;
  }
  return second_best;
}

/// Rules that forbid the stand where it would come are asked before a bed is lived through.
bool WayFinder::quickly_out(const WayOut& way, const Trouble& trouble) {
  if (way.kind == WayOut::Kind::Ending || way.kind == WayOut::Kind::OtherEnd) return false;
  const bool added = way.kind == WayOut::Kind::Added;
  return std::any_of(way.changes.begin(), way.changes.end(), [&](const Change& change) {
    return added ? false : refused_at_once(change, trouble);
  });
}

bool WayFinder::refused_at_once(const Change& change, const Trouble& trouble) {
  const BedCase& bed = (*cases_)[change.instead.bed.place()];
  const ledger::StandSpec spec = ledger::spec_of(change.instead);
  const BedRun& run = (*runs_)[change.instead.bed.place()];
  const ledger::StandLine* before = nullptr;
  for (const ledger::StandLine& line : run.lines) {
    if (line.planting == change.gives_way) continue;
    if (line.stand.spec.weeks.past > spec.weeks.first) break;
    before = &line;
  }
  ledger::BedState state = bed.ledger().opening();
  if (before != nullptr) {
    state = before->before;
    (void)bed.ledger().advance(state, before->stand);
  }
  if (state.week > spec.weeks.first) return true;
  lived_ += 1 + (spec.weeks.past - state.week).count();
  (void)bed.ledger().idle(state, spec.weeks.first);
  rules::Breaches breaches;
  const bool forbidden = bed.forbidden(state, bed.ledger().make_stand(spec), breaches);
  const bool again = std::any_of(breaches.begin(), breaches.end(), [&](const auto& breach) {
    return breach.rule == trouble.rule &&
           rules::setting_of(breach, garden_->policy) >= garden::Setting::Warn;
  });
  return forbidden || again;
}

bool WayFinder::works(WayOut& way, const Trouble& trouble) {
  std::vector<std::size_t> beds = {trouble.bed.place()};
  for (const Change& change : way.changes) beds.push_back(change.instead.bed.place());
  std::sort(beds.begin(), beds.end());
  beds.erase(std::unique(beds.begin(), beds.end()), beds.end());
  int errors = 0;
  int warnings = 0;
  for (const std::size_t bed : beds) {
    std::vector<const Planting*> plantings = (*runs_)[bed].plantings;
    for (const Change& change : way.changes) {
      std::erase(plantings, change.gives_way);
      if (change.instead.bed.place() == bed) plantings.push_back(&change.instead);
    }
    std::stable_sort(plantings.begin(), plantings.end(),
                     [](const auto* a, const auto* b) { return a->from < b->from; });
    const BedRun run = (*cases_)[bed].run(std::move(plantings));
    lived_ += weeks_of_run(run);
    if (still_told(run, trouble, way)) return false;
    errors += (*runs_)[bed].errors - run.errors;
    warnings += (*runs_)[bed].warnings - run.warnings;
  }
  way.warns = warnings < 0;
  return trouble.severity == Severity::Error ? errors > 0 : errors >= 0 && warnings > 0;
}

const Planting* WayFinder::stand_before(const Trouble& trouble) const {
  const Planting* before = nullptr;
  for (const Planting* one : (*runs_)[trouble.bed.place()].plantings) {
    if (one == trouble.planting || garden::weeks_of(*one).first >= trouble.weeks.first) break;
    before = one;
  }
  return before;
}

WeekSpan WayFinder::gap_around(garden::BedId bed, WeekSpan weeks, const Planting* own) const {
  WeekSpan gap{(*cases_)[bed.place()].ledger().opening().week, garden_->seasons.past + Weeks(52)};
  gap.first = std::max(gap.first, garden_->seasons.first);
  for (const Planting* one : (*runs_)[bed.place()].plantings) {
    if (one == own) continue;
    const WeekSpan taken = garden::weeks_of(*one);
    if (taken.first <= weeks.first) {
      gap.first = std::max(gap.first, calendar::week_of(one->to.plus_days(6)));
    } else {
      gap.past = std::min(gap.past, taken.first);
    }
  }
  return gap;
}

WayFinder::Offer WayFinder::offers(const Trouble& trouble) const {
  Offer out;
  if (trouble.planting == nullptr) {  // idle ground: only a cover helps
    offer_covers(trouble, {}, out);
    return out;
  }
  const Fault fault = fault_of(trouble.rule);
  if (fault == Fault::Ground) {
    const bool fumigant = trouble.rule == RuleId::BiofumigantBeforeProne;
    if (fumigant) offer_covers(trouble, {.legume = false, .fumigant = true}, out);
    offer_beds(trouble, out);
    offer_moves(trouble, 1, kMostLater, out);
    offer_swaps(trouble, out);
  } else if (fault == Fault::Hunger) {
    offer_covers(trouble, {.legume = true, .fumigant = false}, out);
    offer_forecrop(trouble, out);
    offer_beds(trouble, out);
    offer_swaps(trouble, out);
  } else if (fault == Fault::Haste) {
    offer_moves(trouble, 1, kWaits, out);
    offer_endings(*trouble.planting, out);
    offer_forecrop(trouble, out);
    offer_beds(trouble, out);
  } else if (fault == Fault::Ending) {
    offer_other_ends(*trouble.planting, kWaits, out);
    offer_endings(*trouble.planting, out);
  } else {
    offer_moves(trouble, -kMostLater, kMostLater, out);
    offer_beds(trouble, out);
    offer_swaps(trouble, out);
  }
  return out;
}

}  // namespace aftercrop::check
