#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/disease/load.h"
#include "emit/amounts.h"
#include "emit/ledger_screen.h"

namespace aftercrop::emit {
namespace {

using Cause = ledger::LoadEvent::Cause;

constexpr double kThreshold = 1.0;  // loads are in units of the damage threshold
constexpr int kNameColumns = 31;
constexpr int kBarHalf = 8;  // columns below the threshold, and above it

std::string_view cause_words(Cause cause) {
  static constexpr std::array<std::string_view, 6> kWords = {"at the start",  "grew on",
                                                             "lowered by",    "seen by the grower",
                                                             "set by a test", "at the year's end"};
  return kWords[static_cast<std::size_t>(cause)];
}

std::string meaning(const catalogue::Pathogen& pathogen, double load) {
  if (load <= 0.0) return "none known";
  if (load >= kThreshold) {
    const double years =
        disease::years_to(load, pathogen.advise_at, pathogen.half_life_years.typical);
    return fmt::format("hurts; {} years", two_digits(years));
  }
  return load >= pathogen.advise_at ? "a risk" : "low";
}

/// A bar of doublings: the threshold in its middle, four halvings and doublings either way.
std::string bar(double load) {
  std::string out(2 * kBarHalf + 1, '.');
  const double doublings = load > 0.0 ? std::log2(load / kThreshold) : -100.0;
  const int filled =
      std::clamp(static_cast<int>(std::lround(kBarHalf + 2.0 * doublings)), 0, 2 * kBarHalf + 1);
  for (int i = 0; i < filled; ++i) out[static_cast<std::size_t>(i)] = '#';
  out[kBarHalf] = '|';
  return out;
}

bool in_year(const ledger::LoadEvent& event, int year) {
  return calendar::iso(event.week).year == year;
}

/// Worth a line of its own: seen or tested or treated in the year, or high enough to advise.
bool matters(const ScreenInput& input, const YearSum& year, std::size_t tracked) {
  const double advise = input.catalogue.pathogen(input.account.tracked[tracked]).advise_at;
  if (year.load_opening[tracked] >= advise || year.load_closing[tracked] >= advise) return true;
  return std::any_of(input.account.load_events.begin(), input.account.load_events.end(),
                     [&](const ledger::LoadEvent& event) {
                       if (event.tracked != tracked || !in_year(event, year.year)) return false;
                       return event.load >= advise || event.cause == Cause::Sighting ||
                              event.cause == Cause::Test || event.cause == Cause::Kill;
                     });
}

std::string events_of(const ScreenInput& input, const YearSum& year, std::size_t tracked) {
  std::string out;
  for (const ledger::LoadEvent& event : input.account.load_events) {
    if (event.tracked != tracked || !in_year(event, year.year)) continue;
    if (event.cause == Cause::YearEnd) continue;
    const std::string crop = event.crop.known() ? " " + input.catalogue.crop(event.crop).name : "";
    out +=
        (out.empty() ? "" : "; ") + fmt::format("{}{} to {} ({})", cause_words(event.cause), crop,
                                                two_digits(event.load), calendar::text(event.week));
  }
  return diagnostic::printable(out);
}

std::string pathogen_lines(const ScreenInput& input, const YearSum& year, std::size_t tracked) {
  const catalogue::Pathogen& pathogen = input.catalogue.pathogen(input.account.tracked[tracked]);
  const double closing = year.load_closing[tracked];
  std::string line =
      padded("  " + diagnostic::printable(pathogen.name), kNameColumns - 1) +
      fmt::format(" {:>5} to {:<5}", two_digits(year.load_opening[tracked]), two_digits(closing));
  const std::string said = meaning(pathogen, closing);
  const int room = input.width - kNameColumns - 14 - 2 * kBarHalf - 3;
  if (room >= static_cast<int>(said.size())) line += ' ' + bar(closing);
  std::string out = line + ' ' + said + '\n';
  if (static_cast<int>(out.size()) > input.width + 1) out = folded(out, input.width, 4, 2);
  if (const auto& span = year.load_spans[tracked]; span && span->low < span->high) {
    out += folded(fmt::format("{} to {} at the published ends", two_digits(span->low),
                              two_digits(span->high)),
                  input.width, 6, 4);
  }
  const std::string events = events_of(input, year, tracked);
  if (!events.empty()) out += folded(events, input.width, 6, 4);
  return out;
}

std::string half_life_text(const catalogue::Pathogen& pathogen, bool high) {
  std::string text = fmt::format(
      "{}: halves in {} years ({} to {}), break {} years ({} to {})", pathogen.name,
      two_digits(pathogen.half_life_years.typical), two_digits(pathogen.half_life_years.low),
      two_digits(pathogen.half_life_years.high), two_digits(pathogen.break_years.typical),
      two_digits(pathogen.break_years.low), two_digits(pathogen.break_years.high));
  if (pathogen.scale != "relative" && !pathogen.scale.empty()) {
    text += fmt::format(", threshold {} {}", two_digits(pathogen.threshold), pathogen.scale);
  }
  if (!high) return text;
  if (!pathogen.weeds.empty()) {
    text += fmt::format(", kept going by {}", fmt::join(pathogen.weeds, ", "));
  }
  if (!pathogen.no_help.empty()) {
    text += fmt::format("; no help: {}", fmt::join(pathogen.no_help, "; "));
  }
  return text;
}

}  // namespace

std::string year_diseases(const ScreenInput& input, const YearSum& year) {
  if (input.account.tracked.empty()) return {};
  std::string high;
  for (std::size_t i = 0; i < input.account.tracked.size(); ++i) {
    if (matters(input, year, i)) high += pathogen_lines(input, year, i);
  }
  if (high.empty()) return "soil-borne disease: all low\n";
  std::string out = padded("soil-borne disease", kNameColumns) +
                    "start to end; | hurts; years = until it is low\n";
  if (static_cast<int>(out.size()) > input.width + 1) out = "soil-borne disease, start to end\n";
  return out + high;
}

std::string bed_diseases(const ScreenInput& input, const std::vector<YearSum>& years) {
  std::string published;
  std::string low;
  for (std::size_t i = 0; i < input.account.tracked.size(); ++i) {
    const catalogue::Pathogen& pathogen = input.catalogue.pathogen(input.account.tracked[i]);
    if (std::none_of(years.begin(), years.end(),
                     [&](const YearSum& year) { return matters(input, year, i); })) {
      low += (low.empty() ? "" : ", ") + pathogen.name;
      continue;
    }
    const bool high = std::any_of(years.begin(), years.end(), [&](const YearSum& year) {
      return year.load_closing[i] >= pathogen.advise_at;
    });
    published += folded(diagnostic::printable(half_life_text(pathogen, high)), input.width, 4, 2);
  }
  std::string out;
  if (!published.empty()) out += "What is published of these diseases\n" + published;
  if (!low.empty()) {
    out += folded("Low all the time: " + diagnostic::printable(low) + ".", input.width, 2);
  }
  return out.empty() ? out : '\n' + out;
}

}  // namespace aftercrop::emit
