#include "aftercrop/check/check.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "aftercrop/ledger/walk.h"
#include "aftercrop/rules/rule.h"

namespace aftercrop::check {
namespace {

using diagnostic::Diagnostic;
using diagnostic::Severity;
using garden::RuleId;
using garden::Setting;

constexpr double kWantShort = 0.95;  // our choice: nearer than this counts as met

Severity severity_of(Setting setting) {
  if (setting == Setting::Require) return Severity::Error;
  return setting == Setting::Warn ? Severity::Warning : Severity::Note;
}

std::string rule_name(RuleId id) { return std::string(garden::card(id).name); }

/// Judges one garden: keeps what all checks need at hand.
class Judge {
 public:
  Judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
        const garden::Plan& plan, bool history_only)
      : garden_(&garden), catalogue_(&catalogue), plan_(&plan), history_only_(history_only) {
    clubroot_seen_ = rules::covers_bind(garden, catalogue);
    planned_ = plan.made_by.starts_with("aftercrop");
  }

  Judgement run(const ledger::SiteClimates& climates);

 private:
  void judge_bed(const ledger::BedLedger& ledger, const ledger::BedAccount& account);
  void judge_line(const ledger::BedLedger& ledger, const ledger::BedAccount& account,
                  std::size_t line);
  void report(const rules::Breach& breach, const rules::Occasion& occasion,
              const ledger::StandLine& line, const ledger::StandLine* related);
  void judge_overlaps(garden::BedId bed);
  void judge_winters(const ledger::BedLedger& ledger, const ledger::BedAccount& account);
  void judge_wants();
  void summarise_doses();

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const garden::Plan* plan_;
  bool history_only_;
  bool clubroot_seen_ = false;
  bool planned_ = false;
  int doses_ = 0;
  double dose_grams_ = 0.0;
  Judgement result_;
};

Judgement Judge::run(const ledger::SiteClimates& climates) {
  const auto tracked = ledger::tracked_pathogens(*garden_, *catalogue_, true);
  for (std::size_t i = 0; i < garden_->beds.size(); ++i) {
    const garden::BedId id(i);
    const ledger::BedLedger ledger(*catalogue_, *garden_, id, climates.of(garden_->beds[i].shelter),
                                   tracked);
    result_.accounts.push_back(ledger::account(ledger, *garden_, *plan_));
    judge_bed(ledger, result_.accounts.back());
  }
  if (!history_only_) judge_wants();
  summarise_doses();
  result_.findings.sort();
  return std::move(result_);
}

void Judge::judge_bed(const ledger::BedLedger& ledger, const ledger::BedAccount& account) {
  judge_overlaps(account.bed);
  for (std::size_t i = 0; i < account.stands.size(); ++i) {
    const bool ahead = account.stands[i].stand.spec.weeks.first >= garden_->seasons.first;
    if (ahead || history_only_) judge_line(ledger, account, i);
  }
  if (!history_only_) judge_winters(ledger, account);
}

/// The earlier stand that a breach speaks of, if it is in the account.
const ledger::StandLine* related_line(const rules::Breach& breach,
                                      const ledger::BedAccount& account, std::size_t line,
                                      const catalogue::Catalogue& rows) {
  for (std::size_t back = line; back-- > 0;) {
    const ledger::StandLine& earlier = account.stands[back];
    const catalogue::Crop& crop = rows.crop(earlier.stand.spec.crop);
    if (breach.rule == RuleId::FamilyBreak) {
      if (crop.group.known() && static_cast<int>(crop.group.place()) == breach.detail) {
        return &earlier;
      }
    } else if (breach.rule == RuleId::HostReturn && breach.detail >= 0) {
      if ((earlier.stand.returns_as_previous >> breach.detail & 1U) != 0U) return &earlier;
    } else if (breach.other.known() && earlier.stand.spec.crop == breach.other) {
      return &earlier;
    }
  }
  return nullptr;
}

void Judge::judge_line(const ledger::BedLedger& ledger, const ledger::BedAccount& account,
                       std::size_t line) {
  const ledger::StandLine& here = account.stands[line];
  const rules::Occasion occasion{ledger, here.before, here.stand, clubroot_seen_};
  rules::Breaches breaches;
  rules::judge_before(occasion, breaches);
  rules::judge_stand(occasion, breaches);
  rules::judge_outcome(occasion, here.outcome, breaches);
  for (const rules::Breach& breach : breaches) {
    report(breach, occasion, here, related_line(breach, account, line, *catalogue_));
  }
}

void Judge::report(const rules::Breach& breach, const rules::Occasion& occasion,
                   const ledger::StandLine& line, const ledger::StandLine* related) {
  const Setting setting = rules::setting_of(breach, garden_->policy);
  if (setting == Setting::Off) return;
  const garden::Bed& bed = occasion.ledger.bed();
  const calendar::Week week = line.stand.spec.weeks.first;
  const bool ahead = week >= garden_->seasons.first;
  if (breach.rule == RuleId::NitrogenShort && planned_ && ahead) {
    ++doses_;  // already a dose in the calendar: one note a garden says so
    dose_grams_ += breach.computed * bed.area.value() / 10.0;
    return;
  }
  // What a grower did or decided already is told, but it is not the plan's mistake.
  const bool decided = line.planting->kept || (!ahead && !history_only_);
  const rules::Rule& rule = *rules::find_rule(breach.rule);
  const rules::Words words = rule.describe(breach, occasion);
  Diagnostic finding;
  finding.id = rule_name(breach.rule);
  finding.severity = decided ? Severity::Note : severity_of(setting);
  finding.message = words.message;
  finding.help = words.help;
  finding.source = line.planting->source;
  finding.bed = bed.name;
  finding.week = week;
  finding.measure = diagnostic::Measure{breach.computed, breach.limit, std::string(breach.unit)};
  for (const std::string_view reference : rule.references) {
    finding.references.emplace_back(reference);
  }
  if (related != nullptr) {
    const std::string when = calendar::monday(related->stand.spec.weeks.past).text();
    finding.related.push_back({fmt::format("{} stood here until {}",
                                           catalogue_->crop(related->stand.spec.crop).name, when),
                               related->planting->source});
  }
  if (const auto* exception = rules::exception_for(garden_->policy, bed, breach.rule, week)) {
    finding.severity = Severity::Note;
    finding.help = fmt::format("accepted: {}", exception->because);
  }
  result_.findings.add(std::move(finding));
}

void Judge::judge_overlaps(garden::BedId bed) {
  const Setting setting = garden_->policy.of(RuleId::BedDoubleBooked);
  if (setting == Setting::Off) return;
  const auto plantings = ledger::plantings_of(bed, garden_->history, plan_->plantings);
  for (std::size_t i = 1; i < plantings.size(); ++i) {
    const garden::Planting& later = *plantings[i];
    const garden::Planting* earlier = plantings[i - 1];
    for (std::size_t k = 0; k < i; ++k) {
      if (plantings[k]->to > earlier->to) earlier = plantings[k];
    }
    const int days = calendar::days_between(later.from, earlier->to);
    if (days <= 0) continue;
    Diagnostic finding;
    finding.id = rule_name(RuleId::BedDoubleBooked);
    finding.severity = severity_of(setting);
    finding.message =
        fmt::format("{} starts {} days before {} is out of {}", catalogue_->crop(later.crop).name,
                    days, catalogue_->crop(earlier->crop).name, garden_->bed(bed).name);
    finding.help =
        fmt::format("start it on {} or later, or move it to another bed", earlier->to.text());
    finding.source = later.source;
    finding.bed = garden_->bed(bed).name;
    finding.week = calendar::week_of(later.from);
    finding.measure = diagnostic::Measure{static_cast<double>(days), 0.0, "days"};
    finding.related.push_back(
        {fmt::format("{} stands here until {}", catalogue_->crop(earlier->crop).name,
                     earlier->to.text()),
         earlier->source});
    result_.findings.add(std::move(finding));
  }
}

/// Counts bare weeks winter by winter.
class Winters : public ledger::Visitor {
 public:
  explicit Winters(calendar::Week from) : from_(from) {}
  void on_stand(const ledger::BedState& /*before*/, const ledger::Stand& /*stand*/,
                const garden::Planting& /*planting*/,
                const ledger::StandOutcome& /*outcome*/) override {
    close();
  }
  void on_idle_week(const ledger::BedState& after, const nitrogen::WeekFlows& /*flows*/) override {
    if (after.bare_weeks == 0) close();
    const calendar::Week week = after.week - calendar::Weeks(1);
    if (after.bare_weeks == 1) first_ = week;
    if (first_ >= from_) run_ = after.bare_weeks;  // begun before: past help
  }
  void close() {
    if (run_ >= ledger::kBareWeekThatCounts) found.emplace_back(first_, run_);
    run_ = 0;
  }
  std::vector<std::pair<calendar::Week, int>> found;

 private:
  calendar::Week from_;
  calendar::Week first_;
  int run_ = 0;
};

void Judge::judge_winters(const ledger::BedLedger& ledger, const ledger::BedAccount& account) {
  const Setting setting = garden_->policy.of(RuleId::BareWinter);
  if (setting == Setting::Off) return;
  Winters winters(history_only_ ? account.from : garden_->seasons.first);
  ledger::BedState state = ledger.opening();
  ledger::WalkOptions options;
  options.until = garden_->seasons.past;
  options.visitor = &winters;
  ledger::walk(ledger, state, ledger::plantings_of(account.bed, garden_->history, plan_->plantings),
               options);
  winters.close();
  for (const auto& [week, run] : winters.found) {
    Diagnostic finding;
    finding.id = rule_name(RuleId::BareWinter);
    finding.severity = severity_of(setting);
    finding.message = fmt::format("{} lies bare for {} wet or freezing weeks from {}",
                                  ledger.bed().name, run, calendar::monday(week).text());
    finding.help = "sow a winter cover before it, or leave mulch or a tarp on it";
    finding.source = ledger.bed().source;
    finding.bed = ledger.bed().name;
    finding.week = week;
    finding.measure =
        diagnostic::Measure{static_cast<double>(run), ledger::kBareWeekThatCounts - 1.0, "weeks"};
    finding.references = {"Nouri et al. 2022, Glob. Change Biol. 28:4736 (published)"};
    result_.findings.add(std::move(finding));
  }
}

void Judge::judge_wants() {
  std::vector<garden::Planting> all = garden_->history;
  all.insert(all.end(), plan_->plantings.begin(), plan_->plantings.end());
  result_.wants = wants_met(*garden_, *catalogue_, all);
  const Setting setting = garden_->policy.of(RuleId::WantUnmet);
  if (setting == Setting::Off) return;
  // A repeated want is one line of the garden and one finding.
  for (std::size_t i = 0; i < garden_->wants.size();) {
    const garden::Want& want = garden_->wants[i];
    double asked = 0.0;
    double met = 0.0;
    std::size_t next = i;
    for (; next < garden_->wants.size() && garden_->wants[next].series == want.series; ++next) {
      asked += garden_->wants[next].amount;
      met += result_.wants[next].met;
    }
    if (asked > 0.0 && met < kWantShort * asked) {
      Diagnostic finding;
      finding.id = rule_name(RuleId::WantUnmet);
      finding.severity = severity_of(setting);
      finding.message = fmt::format("{}: {:.0f} % of what is wanted is met",
                                    catalogue_->crop(want.crop).name, 100.0 * met / asked);
      finding.help = "want less, give it more land or a wider harvest window";
      finding.source = want.source;
      finding.measure = diagnostic::Measure{met, asked, std::string(garden::name(want.unit))};
      result_.findings.add(std::move(finding));
    }
    i = next;
  }
}

void Judge::summarise_doses() {
  if (doses_ == 0) return;
  Diagnostic finding;
  finding.id = rule_name(RuleId::NitrogenShort);
  finding.severity = Severity::Note;
  finding.message = fmt::format(
      "{} stands lack about {:.0f} g nitrogen in all; the calendar carries a dose for each", doses_,
      dose_grams_);
  finding.help = "test the soil first; local limits on nitrogen apply";
  finding.source = garden_->source;
  finding.measure = diagnostic::Measure{dose_grams_, 0.0, "g N"};
  result_.findings.add(std::move(finding));
}

}  // namespace

Judgement judge(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                const ledger::SiteClimates& climates, const garden::Plan& plan, bool history_only) {
  return Judge(garden, catalogue, plan, history_only).run(climates);
}

}  // namespace aftercrop::check
