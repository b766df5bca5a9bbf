#include "emit/ledger_disease.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/disease/load.h"
#include "diagnostic/text.h"
#include "emit/amounts.h"

namespace aftercrop::emit {
namespace {

constexpr double kThreshold = 1.0;  // loads are in units of the damage threshold

std::string meaning(const catalogue::Pathogen& pathogen, double load) {
  if (load <= 0.0) return "none known";
  if (load >= kThreshold) {
    const double years =
        disease::years_to(load, pathogen.advise_at, pathogen.half_life_years.typical);
    return fmt::format(
        "above the threshold: no prone crop; about {} years without a host until "
        "it is low",
        two_digits(years));
  }
  if (load >= pathogen.advise_at) return "below the threshold, but a prone crop is a risk";
  return "low";
}

std::string_view cause_words(ledger::LoadEvent::Cause cause) {
  static constexpr std::array<std::string_view, 6> kWords = {
      "opening", "grows on", "lowered by", "seen by the grower", "set by a test", "no host"};
  return kWords[static_cast<std::size_t>(cause)];
}

std::string event_text(const ledger::LoadEvent& event, const catalogue::Catalogue& catalogue) {
  std::string out = fmt::format("{}  {}", calendar::text(event.week), cause_words(event.cause));
  if (event.crop.known()) out += " " + diagnostic::printable(catalogue.crop(event.crop).name);
  return out + fmt::format(": {}", two_digits(event.load));
}

void add_pathogen(std::string& out, const catalogue::Pathogen& pathogen, const std::string& loads) {
  std::string text = fmt::format(
      "{} (half-life {} to {} years, breaks {} to {} years", pathogen.name,
      two_digits(pathogen.half_life_years.low), two_digits(pathogen.half_life_years.high),
      two_digits(pathogen.break_years.low), two_digits(pathogen.break_years.high));
  if (pathogen.scale != "relative" && !pathogen.scale.empty()) {
    text += fmt::format("; threshold {} {}", two_digits(pathogen.threshold), pathogen.scale);
  }
  out += diagnostic::printable(text) + "): " + loads;
}

/// Worth lines of its own: seen or tested here, treated, or high enough to advise.
bool matters(const catalogue::Pathogen& pathogen, const ledger::BedAccount& account,
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

}  // namespace

std::string disease_text(const catalogue::Catalogue& catalogue, const ledger::BedAccount& account,
                         const LedgerTextOptions& options) {
  if (account.tracked.empty()) return {};
  const int width = std::max(40, options.width);
  std::string out =
      "\nSoil-borne disease, in units of the damage threshold (1 = a prone crop is "
      "hurt)\n";
  const auto add_lines = [&](const std::string& text, int indent) {
    bool first = true;
    for (const std::string& line : diagnostic::fold(text, width - indent - 2)) {
      out += std::string(static_cast<std::size_t>(first ? indent : indent + 2), ' ') + line + '\n';
      first = false;
    }
  };
  std::string low;
  for (std::size_t i = 0; i < account.tracked.size(); ++i) {
    const catalogue::Pathogen& pathogen = catalogue.pathogen(account.tracked[i]);
    if (!matters(pathogen, account, i)) {
      low += (low.empty() ? "" : ", ") + diagnostic::printable(pathogen.name);
      continue;
    }
    const double closing = account.load_closing[i];
    std::string line;
    add_pathogen(
        line, pathogen,
        fmt::format("{} at the start, {} at the end: {}", two_digits(account.load_opening[i]),
                    two_digits(closing), meaning(pathogen, closing)));
    add_lines(line, 0);
    for (const ledger::LoadEvent& event : account.load_events) {
      if (event.tracked != i) continue;
      if (options.year && calendar::iso(event.week).year != *options.year) continue;
      add_lines(event_text(event, catalogue), 4);
    }
  }
  if (!low.empty()) add_lines("Low all along: " + low, 0);
  return out;
}

}  // namespace aftercrop::emit
