#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/render.h"
#include "emit/amounts.h"
#include "emit/ledger_screen.h"

namespace aftercrop::emit {
namespace {

constexpr int kFixed = 44;  // week, pool, amount and range before the words
constexpr int kNarrow = 66;

/// Sources by number, in the order in which lines first name them.
class Footnotes {
 public:
  std::size_t number(const std::string& source) {
    const auto found = std::find(sources_.begin(), sources_.end(), source);
    if (found != sources_.end()) return static_cast<std::size_t>(found - sources_.begin()) + 1;
    sources_.push_back(source);
    return sources_.size();
  }
  [[nodiscard]] std::string text(int width) const {
    std::string out;
    for (std::size_t i = 0; i < sources_.size(); ++i) {
      out += folded(fmt::format("[{}] {}", i + 1, diagnostic::printable(sources_[i])), width, 5);
    }
    return out;
  }

 private:
  std::vector<std::string> sources_;
};

std::string posting_line(const ScreenInput& input, const nitrogen::Posting& posting,
                         Footnotes& notes) {
  const catalogue::CauseText& cause =
      input.nitrogen().causes[static_cast<std::size_t>(posting.cause)];
  std::string said = cause.words;
  if (posting.crop.known()) said += ": " + input.catalogue.crop(posting.crop).name;
  said += fmt::format(" [{}]", notes.number(cause.source));
  const auto three = [](double value) { return std::round(value * 1000.0) / 1000.0 + 0.0; };
  const double one = three(posting.kg_per_ha * cause.low);
  const double other = three(posting.kg_per_ha * cause.high);
  const std::string range =
      cause.low == cause.high
          ? std::string()
          : fmt::format("{:.3g} to {:.3g}", std::min(one, other), std::max(one, other));
  const std::string fixed =
      fmt::format("{} {:7} {:>8.3f}  {:15} ", calendar::text(posting.week),
                  nitrogen::kPoolNames[static_cast<std::size_t>(posting.pool)],
                  three(posting.kg_per_ha), range);
  said = diagnostic::printable(said);
  if (input.width < kNarrow) return folded(fixed + said, input.width, 4);
  return padded(fixed, kFixed) + folded(said, input.width, kFixed);
}

std::string load_line(const ScreenInput& input, const ledger::LoadEvent& event, Footnotes& notes) {
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
  if (event.low >= 0.0 && event.low < event.high) {
    said += fmt::format(" ({} to {})", two_digits(event.low), two_digits(event.high));
  }
  if (!source.empty()) said += fmt::format(" [{}]", notes.number(source));
  return folded(
      fmt::format("{} {}: {} of the threshold, {}", calendar::text(event.week),
                  diagnostic::printable(pathogen.name), load, diagnostic::printable(said)),
      input.width, 4);
}

}  // namespace

std::string year_lines(const ScreenInput& input, const YearSum& year) {
  Footnotes notes;
  std::string out =
      folded("postings, kg N/ha: week, pool, amount, low to high, cause [source]", input.width, 2);
  for (const nitrogen::Posting& posting : input.account.postings) {
    if (calendar::iso(posting.week).year == year.year) out += posting_line(input, posting, notes);
  }
  std::string loads;
  for (const ledger::LoadEvent& event : input.account.load_events) {
    if (calendar::iso(event.week).year != year.year || event.load <= 0.0) continue;
    loads += load_line(input, event, notes);
  }
  if (!loads.empty()) out += "loads of disease\n" + loads;
  return out + "sources\n" + notes.text(input.width);
}

}  // namespace aftercrop::emit
