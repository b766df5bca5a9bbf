#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercrop/diagnostic/render.h"
#include "emit/amounts.h"
#include "emit/ledger_screen.h"

namespace aftercrop::emit {
namespace {

const catalogue::CauseText& words_of(const ScreenInput& input, const nitrogen::Posting& posting) {
  return input.nitrogen().causes[static_cast<std::size_t>(posting.cause)];
}

std::string posting_line(const ScreenInput& input, const nitrogen::Posting& posting) {
  const catalogue::CauseText& cause = words_of(input, posting);
  std::string said = cause.words;
  if (posting.crop.known()) said += ": " + input.catalogue.crop(posting.crop).name;
  const double size = posting.kg_per_ha;
  const auto three = [](double value) { return std::round(value * 1000.0) / 1000.0 + 0.0; };
  const double one = three(size * cause.low);
  const double other = three(size * cause.high);
  const std::string range =
      cause.low == cause.high
          ? std::string()
          : fmt::format("{:.3g} to {:.3g}", std::min(one, other), std::max(one, other));
  const std::string line =
      fmt::format("{} {:8} {:>9.3f} {:18} {} [{}]", calendar::text(posting.week),
                  nitrogen::kPoolNames[static_cast<std::size_t>(posting.pool)], three(size), range,
                  diagnostic::printable(said), diagnostic::printable(cause.source));
  return folded(line, input.width, 4);
}

std::string load_line(const ScreenInput& input, const ledger::LoadEvent& event) {
  using Cause = ledger::LoadEvent::Cause;
  static constexpr std::array<std::string_view, 6> kWords = {
      "at the start", "host: ", "lowered by ", "sighting", "soil test", "time and hosts"};
  const catalogue::Pathogen& pathogen =
      input.catalogue.pathogen(input.account.tracked[event.tracked]);
  std::string said(kWords[static_cast<std::size_t>(event.cause)]);
  if (event.crop.known()) said += input.catalogue.crop(event.crop).name;
  const std::string source = pathogen.sources.empty() ? "" : pathogen.sources.front().text;
  const bool changed = event.cause != Cause::Host && event.cause != Cause::YearEnd;
  const std::string load =
      changed ? fmt::format("{} to {}", two_digits(event.before), two_digits(event.load))
              : two_digits(event.load);
  return folded(fmt::format("{} {}: {} of the threshold, {} [{}]", calendar::text(event.week),
                            diagnostic::printable(pathogen.name), load, diagnostic::printable(said),
                            diagnostic::printable(source)),
                input.width, 4);
}

}  // namespace

std::string year_lines(const ScreenInput& input, const YearSum& year) {
  std::string out = folded(
      "postings, kg N/ha, with the range of each (week, pool, amount, low to high, cause [source])",
      input.width, 2);
  for (const nitrogen::Posting& posting : input.account.postings) {
    if (calendar::iso(posting.week).year == year.year) out += posting_line(input, posting);
  }
  std::string loads;
  for (const ledger::LoadEvent& event : input.account.load_events) {
    if (calendar::iso(event.week).year != year.year || event.load <= 0.0) continue;
    loads += load_line(input, event);
  }
  return loads.empty() ? out : out + "loads of disease\n" + loads;
}

}  // namespace aftercrop::emit
