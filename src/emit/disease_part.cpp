// A bed's soil-borne disease on its sheet: loads in units of the damage threshold.
#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/disease/load.h"
#include "emit/amounts.h"
#include "emit/chart.h"
#include "emit/ledger_years.h"
#include "emit/markup.h"
#include "emit/page_parts.h"

namespace aftercrop::emit {
namespace {

constexpr double kLeastShown = 1.0 / 64.0;
constexpr double kMostShown = 16.0;
constexpr std::size_t kMostLines = 5;

/// What a load means for a prone crop.
std::string load_meaning(const catalogue::Pathogen& pathogen, double load) {
  if (load <= 0.0) return "none known";
  if (load >= 1.0) {
    const double years =
        disease::years_to(load, pathogen.advise_at, pathogen.half_life_years.typical);
    return fmt::format("hurts a prone crop; about {} years without a host until it is low",
                       two_digits(years));
  }
  return load >= pathogen.advise_at ? "a risk for a prone crop" : "low";
}

/// Worth a line of its own: seen or tested here, treated, or high enough to advise.
bool worth_lines(const catalogue::Pathogen& pathogen, const ledger::BedAccount& account,
                 std::size_t tracked) {
  using Cause = ledger::LoadEvent::Cause;
  if (account.load_opening[tracked] >= pathogen.advise_at ||
      account.load_closing[tracked] >= pathogen.advise_at) {
    return true;
  }
  return std::any_of(account.load_events.begin(), account.load_events.end(),
                     [&](const ledger::LoadEvent& event) {
                       if (event.tracked != tracked) return false;
                       return event.load >= pathogen.advise_at || event.cause == Cause::Sighting ||
                              event.cause == Cause::Test || event.cause == Cause::Kill;
                     });
}

/// A load at a week.
struct Seen {
  calendar::Week week;
  Span load;
};

/// The load as each stand found it and after each event, between its published ends where they are
/// known. Between them it halves or doubles at an even rate, which is straight on a doubling axis.
std::vector<Seen> loads_of(const ledger::BedAccount& account, std::size_t tracked) {
  const auto known = [](double load) { return Span{load, -1.0, -1.0}; };
  std::vector<Seen> points;
  points.push_back({account.from, known(account.load_opening[tracked])});
  for (const ledger::StandLine& stand : account.stands) {
    if (tracked >= stand.before.loads.size()) continue;
    points.push_back({stand.before.week, known(stand.before.loads[tracked].central)});
  }
  for (const ledger::LoadEvent& event : account.load_events) {
    if (event.tracked != tracked || event.cause == ledger::LoadEvent::Cause::Opening) continue;
    points.push_back({event.week + calendar::Weeks(1), {event.load, event.low, event.high}});
  }
  points.push_back({account.until, known(account.load_closing[tracked])});
  std::stable_sort(points.begin(), points.end(),
                   [](const Seen& a, const Seen& b) { return a.week < b.week; });
  return points;
}

/// Fills the spans that only events carry: as wide, in doublings, as at the last event.
void spread(std::vector<Seen>& points) {
  double down = 1.0;
  double up = 1.0;
  for (Seen& seen : points) {
    Span& load = seen.load;
    if (load.low >= 0.0 && load.middle > 0.0) {
      down = load.low / load.middle;
      up = load.high / load.middle;
    } else {
      load.low = down * load.middle;
      load.high = up * load.middle;
    }
  }
}

ChartLine line_of(const ledger::BedAccount& account, const catalogue::Pathogen& pathogen,
                  std::size_t tracked, std::size_t nth) {
  ChartLine line;
  line.style = fmt::format("load{}", nth + 1);
  line.name = fitted(pathogen.name, 15);
  std::vector<Seen> points = loads_of(account, tracked);
  spread(points);
  bool apart = false;
  for (const Seen& seen : points) {
    line.points.push_back({seen.week, seen.load.middle});
    line.low.push_back({seen.week, seen.load.low});
    line.high.push_back({seen.week, seen.load.high});
    apart = apart || seen.load.high > seen.load.low * 1.01;
  }
  if (!apart) line.low.clear();
  return line;
}

/// The published ends of the load at the end of the account; empty where they are not known.
std::string span_text(const ledger::BedAccount& account, std::size_t tracked) {
  std::vector<Seen> points = loads_of(account, tracked);
  spread(points);
  const Span& last = points.back().load;
  if (last.high <= last.low * 1.01) return {};
  return fmt::format(" ({} to {})", two_digits(last.low), two_digits(last.high));
}

std::string words_of(const catalogue::Pathogen& pathogen, double opening, double closing,
                     const std::string& span) {
  return fmt::format(
      "<li><strong>{}</strong>: {} at the start, {}{} at the end, {} <small>without a host half "
      "is left after {} to {} years; breaks of {} to {} years are advised</small></li>\n",
      markup(pathogen.name), two_digits(opening), two_digits(closing), span,
      markup(load_meaning(pathogen, closing)), two_digits(pathogen.half_life_years.low),
      two_digits(pathogen.half_life_years.high), two_digits(pathogen.break_years.low),
      two_digits(pathogen.break_years.high));
}

}  // namespace

std::string disease_part(const PageContext& page, const BedStands& bed) {
  if (bed.account == nullptr || bed.account->tracked.empty()) return {};
  const ledger::BedAccount& account = *bed.account;
  TimeChart chart;
  chart.title = fmt::format("Soil-borne disease in bed {}, in units of the damage threshold",
                            page.bed(bed.bed).name);
  chart.unit = "times the threshold";
  chart.weeks = {account.from, account.until};
  chart.doubling = true;
  chart.least = kLeastShown;
  chart.most = kMostShown;
  chart.limit = 1.0;
  chart.limit_name = "above: prone crops are hurt";
  std::string words;
  std::string low;
  for (std::size_t i = 0; i < account.tracked.size(); ++i) {
    const catalogue::Pathogen& pathogen = page.input.catalogue.pathogen(account.tracked[i]);
    if (!worth_lines(pathogen, account, i)) {
      low += (low.empty() ? "" : ", ") + markup(pathogen.name);
      continue;
    }
    words +=
        words_of(pathogen, account.load_opening[i], account.load_closing[i], span_text(account, i));
    if (chart.lines.size() < kMostLines) {
      chart.lines.push_back(line_of(account, pathogen, i, chart.lines.size()));
    }
    chart.summary += fmt::format("{}{} from {} to {}{}", chart.summary.empty() ? "" : "; ",
                                 pathogen.name, two_digits(account.load_opening[i]),
                                 two_digits(account.load_closing[i]), span_text(account, i));
  }
  std::string out = "<h4>Soil-borne disease</h4>\n";
  if (!chart.lines.empty()) {
    out += "<figure>" + time_chart(chart) +
           "<figcaption>The line by typical figures, the shade by the published ends of how fast "
           "it falls.</figcaption></figure>\n";
  }
  if (!words.empty()) out += "<ul class=\"loads\">\n" + words + "</ul>\n";
  if (!low.empty()) out += "<p class=\"low\">Low all along: " + low + ".</p>\n";
  return out;
}

}  // namespace aftercrop::emit
