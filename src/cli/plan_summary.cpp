#include "cli/plan_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/emit/ledger_text.h"
#include "cli/measures.h"
#include "cli/report.h"
#include "cli/terminal.h"
#include "diagnostic/text.h"

namespace aftercrop::cli {
namespace {

constexpr double kAsGoodAsMet = 0.95;
constexpr double kSquareMetresPerHa = 10000.0;

std::string row(std::string_view head, std::string_view text) { return summary_row(head, text); }

std::string crop_name(const Planned& planned, catalogue::CropId crop) {
  return diagnostic::printable(planned.loaded.catalogue.crop(crop).name);
}

/// "leaf lettuce" or, where the crop is wanted twice, "leaf lettuce (07-26 to 10-05)".
std::string want_name(const Planned& planned, const std::vector<WantLine>& lines,
                      const WantLine& line) {
  const auto same = std::count_if(lines.begin(), lines.end(),
                                  [&](const WantLine& other) { return other.crop == line.crop; });
  const std::string name = crop_name(planned, line.crop);
  if (same < 2) return name;
  return fmt::format("{} ({} to {})", name, calendar::monday(line.window.first).text().substr(5),
                     calendar::monday(line.window.past).plus_days(-1).text().substr(5));
}

std::string short_rows(const Planned& planned) {
  std::string text;
  const std::vector<WantLine> lines = want_lines(planned);
  for (const WantLine& line : lines) {
    if (line.met >= kAsGoodAsMet * line.amount) continue;
    const auto units = planned.loaded.garden.units;
    text +=
        row("short", fmt::format("{}: {} of {}{}{}", want_name(planned, lines, line),
                                 line.met > 0.0 ? amount_text(line.met, line.unit, units) : "none",
                                 amount_text(line.amount, line.unit, units),
                                 line.why.empty() ? "" : "; ", diagnostic::printable(line.why)));
  }
  return text;
}

std::string nitrogen_row(const Planned& planned) {
  const auto units = planned.loaded.garden.units;
  const sequencer::Outcome& outcome = planned.outcome;
  const std::string fixed = outcome.fixed_kg > 0.0 ? fmt::format("; legumes bring in about {}",
                                                                 mass_text(outcome.fixed_kg, units))
                                                   : std::string();
  if (outcome.bought_kg * 1000.0 < 1.0) return row("nitrogen", "none to buy" + fixed);
  return row("nitrogen",
             fmt::format("buy about {} of nitrogen (the calendar's list says as what){}",
                         mass_text(outcome.bought_kg, units), fixed));
}

std::string winter_row(const Planned& planned) {
  std::set<std::string> beds;
  for (const auto& finding : planned.judgement.findings.all()) {
    if (finding.id == "bare-winter") beds.insert(finding.bed);
  }
  if (beds.empty()) return row("winter", "no bed lies bare");
  std::string names;
  for (const std::string& bed : beds) {
    if (!names.empty()) names += ", ";
    names += diagnostic::printable(bed);
  }
  return row("winter", fmt::format("bare for a time: {}", names));
}

/// Rounded up, so that the sentence stays true.
std::string proof_row(const Planned& planned) {
  const auto gap = planned.outcome.gap();
  if (!planned.outcome.bound || !gap) return {};
  const double percent = std::max(0.0, 100.0 * *gap);
  const double rounded = percent < 1.0 ? std::ceil(percent * 10.0) / 10.0 : std::ceil(percent);
  return row("proof",
             fmt::format("no plan on this land can beat this one by more than {:g} %", rounded));
}

std::string why_short(const Planned& planned, std::size_t want) {
  for (const sequencer::WantResult& result : planned.outcome.wants) {
    if (result.want == want) return result.why;
  }
  return {};
}

/// One reason for what is missing of a line of wants, and the windows that it is true of.
struct Reason {
  std::string why;  ///< with what would help where most is missing
  double missing = 0.0;
  double most = 0.0;
  std::vector<calendar::WeekSpan> spans;  ///< windows that touch made one
};

/// A reason without what would help.
std::string_view cause_of(std::string_view why) { return why.substr(0, why.find("; would help")); }

void add_reason(const std::string& why, double missing, calendar::WeekSpan window,
                std::vector<Reason>& reasons) {
  auto known = std::find_if(reasons.begin(), reasons.end(), [&](const Reason& reason) {
    return cause_of(reason.why) == cause_of(why);
  });
  if (known == reasons.end()) {
    reasons.push_back({why, 0.0, missing, {}});
    known = reasons.end() - 1;
  }
  known->missing += missing;
  if (missing > known->most) {
    known->most = missing;
    known->why = why;
  }
  const bool goes_on = !known->spans.empty() && known->spans.back().past == window.first;
  if (goes_on) {
    known->spans.back().past = window.past;
  } else {
    known->spans.push_back(window);
  }
}

std::string spans_text(const std::vector<calendar::WeekSpan>& spans) {
  constexpr std::size_t kMostSpans = 3;
  std::string text;
  for (std::size_t i = 0; i < std::min(spans.size(), kMostSpans); ++i) {
    text += fmt::format("{}{} to {}", i == 0 ? "" : ", ", calendar::monday(spans[i].first).text(),
                        calendar::monday(spans[i].past).plus_days(-1).text());
  }
  if (spans.size() > kMostSpans) text += fmt::format(" and {} more", spans.size() - kMostSpans);
  return text;
}

/// The reason that most is missing for, and a second one that counts beside it, each with the
/// windows in which it holds; without them where one holds all along.
std::string why_text(std::vector<Reason> reasons, bool all_along) {
  constexpr double kCounts = 0.5;  // of what is missing for the first
  if (reasons.empty()) return {};
  if (reasons.size() == 1 && all_along) return reasons.front().why;
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.missing > b.missing; });
  const bool second = reasons.size() > 1 && reasons[1].missing >= kCounts * reasons[0].missing;
  reasons.resize(second ? 2 : 1);
  std::string text;
  for (const Reason& reason : reasons) {
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", spans_text(reason.spans), reason.why);
  }
  return text;
}

}  // namespace

std::string summary_row(std::string_view head, std::string_view text) {
  constexpr int kHead = 11;
  return beside(head, text, kHead);
}

std::vector<WantLine> want_lines(const Planned& planned) {
  std::vector<WantLine> lines;
  std::vector<int> series;
  std::vector<std::vector<Reason>> reasons;
  std::vector<bool> some_met;
  const garden::Garden& garden = planned.loaded.garden;
  for (const check::WantMet& result : planned.judgement.wants) {
    const garden::Want& want = garden.wants[result.want];
    const auto known = std::find(series.begin(), series.end(), want.series);
    const auto place = static_cast<std::size_t>(known - series.begin());
    if (known == series.end()) {
      series.push_back(want.series);
      lines.push_back({want.crop, want.unit, 0.0, 0.0, want.window, {}});
      reasons.emplace_back();
      some_met.push_back(false);
    }
    WantLine& line = lines[place];
    const calendar::Week year = line.window.first + calendar::Weeks(52);
    if (want.window.past < year) line.window.past = std::max(line.window.past, want.window.past);
    line.amount += want.amount;
    const double met = std::min(result.met, want.amount);
    line.met += met;
    const std::string why = why_short(planned, result.want);
    if (why.empty()) {
      some_met[place] = true;
    } else {
      add_reason(why, want.amount - met, want.window, reasons[place]);
    }
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].why = why_text(std::move(reasons[i]), !some_met[i]);
  }
  return lines;
}

std::string plan_summary(const Planned& planned) {
  const garden::Garden& garden = planned.loaded.garden;
  const double share = check::share_met(garden, planned.judgement.wants);
  std::string text =
      row("plan",
          fmt::format("{}: {} in {}", diagnostic::printable(garden.name),
                      counted(static_cast<int>(planned.outcome.plan.plantings.size()), "planting"),
                      counted(garden.years, "season")));
  text += row("climate", emit::climate_line(garden.site));
  text += row("wants", fmt::format("{:.0f} % of what you want, each counted by its weight",
                                   std::floor(100.0 * share + 1e-9)));
  text += short_rows(planned);
  text += nitrogen_row(planned);
  text += winter_row(planned);
  text += row("findings", cause_text(planned.judgement.findings));
  text += proof_row(planned);
  if (planned.outcome.stopped_by == "interrupt")
    text += row("stopped", "by you; the best plan so far");
  return text;
}

std::string plan_stats(const Planned& planned) {
  const sequencer::Outcome& outcome = planned.outcome;
  const sequencer::Value& value = outcome.value;
  double area = 0.0;
  for (const garden::Bed& bed : planned.loaded.garden.beds) area += bed.area.value();
  const double per_ha = area > 0.0 ? kSquareMetresPerHa / area : 0.0;
  std::string text = row("value", fmt::format("{:.2f} = wants {:.2f}", value.total(), value.wants));
  for (const auto& [name, cost] :
       {std::pair{"nitrogen", value.nitrogen}, std::pair{"leached", value.leached},
        std::pair{"disease", value.disease}, std::pair{"bare winter", value.bare_winter},
        std::pair{"warnings", value.warnings}, std::pair{"work", value.work},
        std::pair{"changes", value.changes}}) {
    text += row("", fmt::format("- {} {:.2f}", name, cost));
  }
  if (outcome.bound) text += row("bound", fmt::format("{:.2f}", *outcome.bound));
  text += row("stopped by", fmt::format("{} after {:.1f} s", outcome.stopped_by, outcome.seconds));
  text += row("search",
              fmt::format("{} classes, {} arcs, {} rounds, {} columns, {} labels",
                          outcome.counters.classes, outcome.counters.arcs, outcome.counters.rounds,
                          outcome.counters.columns, outcome.counters.labels));
  if (outcome.trimmed) text += row("memory", "kept searches narrow");
  text += row("kg N/ha", fmt::format("bought {:.1f}, leached {:.1f}, fixed {:.1f}, all seasons",
                                     outcome.bought_kg * per_ha, outcome.leached_kg * per_ha,
                                     outcome.fixed_kg * per_ha));
  return text;
}

}  // namespace aftercrop::cli
