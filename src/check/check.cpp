#include "aftercrop/check/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>

#include "aftercrop/garden/measure_text.h"
#include "aftercrop/ledger/walk.h"
#include "check/bed_rules.h"
#include "check/garden_rules.h"
#include "check/ways_out.h"

namespace aftercrop::check {
namespace {

using diagnostic::Diagnostic;
using diagnostic::Severity;
using garden::RuleId;

/// The earlier stand that a breach speaks of, if it is in the run.
const ledger::StandLine* related_line(const Told& told, const BedRun& run,
                                      const catalogue::Catalogue& rows) {
  const rules::Breach& breach = told.breach;
  for (std::size_t back = told.line; back-- > 0;) {
    const ledger::StandLine& earlier = run.lines[back];
    const catalogue::Crop& crop = rows.crop(earlier.stand.spec.crop);
    if (breach.rule == RuleId::FamilyBreak) {
      const auto belongs = [&](const catalogue::Crop& one) {
        return one.group.known() && static_cast<int>(one.group.place()) == breach.detail;
      };
      const bool part = std::any_of(
          crop.mixture.begin(), crop.mixture.end(),
          [&](const catalogue::MixturePart& one) { return belongs(rows.crop(one.crop)); });
      if (belongs(crop) || part) return &earlier;
    } else if (breach.rule == RuleId::HostReturn && breach.detail >= 0) {
      if ((earlier.stand.returns_as_previous >> breach.detail & 1U) != 0U) return &earlier;
    } else if (breach.other.known() && earlier.stand.spec.crop == breach.other) {
      return &earlier;
    }
  }
  return nullptr;
}

/// Crop, and the disease or family that it meets.
std::string cause_of(const rules::Breach& breach, const ledger::StandLine& line,
                     const catalogue::Catalogue& rows) {
  std::string cause = rows.crop(line.stand.spec.crop).id;
  if (breach.pathogen.known()) cause += "/" + rows.pathogen(breach.pathogen).id;
  if (breach.rule == RuleId::FamilyBreak) {
    cause += "/" + rows.groups[static_cast<std::size_t>(breach.detail)].id;
  }
  return cause;
}

/// Judges one garden: keeps what all checks need at hand.
class Judge {
 public:
  Judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
        const garden::Plan& plan, const Ask& ask)
      : garden_(&garden), catalogue_(&catalogue), plan_(&plan), ask_(ask) {
    scope_.history_only = ask.history_only;
    scope_.planned = plan.made_by.starts_with("aftercrop");
    scope_.clubroot_seen = rules::covers_bind(garden, catalogue);
  }

  Judgement run(const ledger::SiteClimates& climates);

 private:
  void keep_accounts();
  void tell_bed(const BedRun& run, garden::BedId bed, WayFinder& finder);
  void tell_stand(const BedRun& run, const Told& told, garden::BedId bed, WayFinder& finder);
  void seek_help(const Trouble& trouble, WayFinder& finder, Diagnostic& finding);
  void summarise_doses();

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const garden::Plan* plan_;
  Ask ask_;
  Scope scope_;
  std::deque<ledger::BedLedger> ledgers_;
  std::vector<BedCase> cases_;
  std::vector<BedRun> runs_;
  int doses_ = 0;
  double dose_grams_ = 0.0;
  Judgement result_;
};

Judgement Judge::run(const ledger::SiteClimates& climates) {
  const auto tracked = ledger::tracked_pathogens(*garden_, *catalogue_, true);
  for (std::size_t i = 0; i < garden_->beds.size(); ++i) {
    const garden::BedId id(i);
    ledgers_.emplace_back(*catalogue_, *garden_, id, climates.of(garden_->beds[i].shelter),
                          tracked);
    cases_.emplace_back(*garden_, ledgers_.back(), id, scope_);
    runs_.push_back(
        cases_.back().run(ledger::plantings_of(id, garden_->history, plan_->plantings)));
  }
  keep_accounts();
  WayFinder finder(*garden_, *catalogue_, cases_, runs_);
  for (std::size_t i = 0; i < runs_.size(); ++i) tell_bed(runs_[i], garden::BedId(i), finder);
  const Ground ground{*garden_, *catalogue_, cases_, runs_};
  judge_tests(ground, result_.accounts, result_.findings);
  if (!ask_.history_only) {
    judge_neighbours(ground, result_.findings);
    judge_partners(ground, result_.findings);
    std::vector<garden::Planting> all;  // a row that garden and plan both have counts once
    for (const BedRun& run : runs_) {
      for (const garden::Planting* one : run.plantings) all.push_back(*one);
    }
    result_.wants = wants_met(*garden_, *catalogue_, all);
    judge_wants(*garden_, *catalogue_, result_.wants, result_.findings);
  }
  summarise_doses();
  result_.findings.sort();
  if (!ask_.accounts) result_.accounts.clear();
  return std::move(result_);
}

/// All accounts if they are asked for, else those of the beds that were tested.
void Judge::keep_accounts() {
  for (std::size_t i = 0; i < ledgers_.size(); ++i) {
    const bool tested = std::any_of(garden_->tests.begin(), garden_->tests.end(),
                                    [&](const auto& test) { return test.bed == garden::BedId(i); });
    if (!ask_.accounts && !tested) continue;
    result_.accounts.push_back(ledger::account(ledgers_[i], *garden_, *plan_));
  }
}

void Judge::tell_bed(const BedRun& run, garden::BedId bed, WayFinder& finder) {
  const auto add = [&](std::optional<Diagnostic> finding, RuleId rule,
                       const garden::Planting* planting, calendar::WeekSpan weeks) {
    if (!finding) return;
    seek_help({rule, bed, planting, finding->severity, weeks, nullptr}, finder, *finding);
    result_.findings.add(std::move(*finding));
  };
  for (const Overlap& overlap : run.overlaps) {
    add(tell_overlap(*garden_, *catalogue_, bed, overlap), RuleId::BedDoubleBooked, overlap.later,
        garden::weeks_of(*overlap.later));
  }
  for (const Told& told : run.told) tell_stand(run, told, bed, finder);
  for (const BareSpell& spell : run.winters) {
    add(tell_winter(*garden_, bed, spell), RuleId::BareWinter, nullptr,
        {spell.first, spell.first + calendar::Weeks(spell.weeks)});
  }
  for (const Leftover& left : run.leftovers) {
    add(tell_leftover(*garden_, bed, left), RuleId::NitrogenSurplus, nullptr,
        {left.week, left.week + calendar::Weeks(1)});
  }
}

/// Puts a way that was tried in front of the rule's own words.
void Judge::seek_help(const Trouble& trouble, WayFinder& finder, Diagnostic& finding) {
  if (!ask_.ways_out || ask_.history_only || finding.severity == Severity::Note) return;
  auto way = finder.find(trouble);
  if (!way) {
    if (!finder.tired()) finding.help += "; no change of one stand that was tried clears it";
    return;
  }
  finding.help = fmt::format("{}: tried, and this finding is gone {}", way->words,
                             way->warns ? "at the price of a warning" : "without a new one");
  result_.cures.push_back({trouble.rule, trouble.bed, trouble.weeks.first, std::move(*way)});
}

void Judge::tell_stand(const BedRun& run, const Told& told, garden::BedId bed_id,
                       WayFinder& finder) {
  const rules::Breach& breach = told.breach;
  const ledger::StandLine& line = run.lines[told.line];
  const garden::Bed& bed = garden_->bed(bed_id);
  const calendar::WeekSpan weeks = line.stand.spec.weeks;
  if (breach.rule == RuleId::NitrogenShort && scope_.planned &&
      weeks.first >= garden_->seasons.first) {
    ++doses_;  // already a dose in the calendar: one note a garden says so
    dose_grams_ += breach.computed * bed.area.value() / 10.0;
    return;
  }
  const rules::Rule& rule = *rules::find_rule(breach.rule);
  const rules::Occasion occasion{ledgers_[bed_id.place()], line.before, line.stand,
                                 scope_.clubroot_seen};
  const rules::Words words = rule.describe(breach, occasion);
  Diagnostic finding;
  finding.id = std::string(garden::card(breach.rule).name);
  finding.severity = told.severity;
  finding.message = words.message;
  finding.help = words.help;
  finding.source = line.planting->source;
  finding.bed = bed.name;
  finding.week = weeks.first;
  finding.cause = cause_of(breach, line, *catalogue_);
  finding.measure = diagnostic::Measure{breach.computed, breach.limit, std::string(breach.unit)};
  finding.references = words.references;
  if (words.references.empty()) {
    finding.references.assign(rule.references.begin(), rule.references.end());
  }
  if (const ledger::StandLine* related = related_line(told, run, *catalogue_)) {
    const std::string when = calendar::monday(related->stand.spec.weeks.past).text();
    finding.related.push_back({fmt::format("{} stood here until {}",
                                           catalogue_->crop(related->stand.spec.crop).name, when),
                               related->planting->source});
  }
  if (told.accepted != nullptr) {
    finding.help = fmt::format("accepted: {}", told.accepted->because);
  } else {
    seek_help({breach.rule, bed_id, line.planting, told.severity, weeks, &breach}, finder, finding);
  }
  result_.findings.add(std::move(finding));
}

void Judge::summarise_doses() {
  if (doses_ == 0) return;
  auto finding = finding_of(*garden_, RuleId::NitrogenShort);
  if (!finding) return;
  finding->severity = Severity::Note;
  const std::string mass = garden::mass_text(dose_grams_ / 1000.0, garden_->units);
  finding->message =
      doses_ == 1
          ? fmt::format("a stand lacks about {} of nitrogen; the calendar carries the dose", mass)
          : fmt::format(
                "{} stands lack about {} of nitrogen in all; the calendar carries a dose for each",
                doses_, mass);
  finding->help = "test the soil first; local limits on nitrogen apply";
  finding->source = garden_->source;
  finding->measure = diagnostic::Measure{dose_grams_, 0.0, "g N"};
  result_.findings.add(std::move(*finding));
}

}  // namespace

Judgement judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                const ledger::SiteClimates& climates, const garden::Plan& plan, const Ask& ask) {
  return Judge(garden, catalogue, plan, ask).run(climates);
}

}  // namespace aftercrop::check
