#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercrop/emit/ledger_text.h"
#include "emit/csv.h"

namespace aftercrop::emit {
namespace {

std::string figure(double value) { return fmt::format("{:.9g}", value + 0.0); }

std::string posting_row(const std::string& bed, const nitrogen::Posting& posting,
                        const catalogue::Catalogue& catalogue) {
  const catalogue::CauseText& cause =
      catalogue.coefficients.nitrogen.causes[static_cast<std::size_t>(posting.cause)];
  const double one = posting.kg_per_ha * cause.low;
  const double other = posting.kg_per_ha * cause.high;
  return csv_line({bed, calendar::text(posting.week), calendar::monday(posting.week).text(),
                   "nitrogen",
                   std::string(nitrogen::kPoolNames[static_cast<std::size_t>(posting.pool)]),
                   figure(posting.kg_per_ha), figure(std::min(one, other)),
                   figure(std::max(one, other)), "kg N/ha", cause.words,
                   posting.crop.known() ? catalogue.crop(posting.crop).id : "", cause.source});
}

std::string load_row(const std::string& bed, const ledger::LoadEvent& event,
                     const ledger::BedAccount& account, const catalogue::Catalogue& catalogue) {
  static constexpr std::array<const char*, 6> kWords = {"opening",  "host crop", "biofumigation",
                                                        "sighting", "soil test", "end of the year"};
  const catalogue::Pathogen& pathogen = catalogue.pathogen(account.tracked[event.tracked]);
  return csv_line({bed, calendar::text(event.week), calendar::monday(event.week).text(), "disease",
                   pathogen.id, figure(event.load), event.low < 0.0 ? "" : figure(event.low),
                   event.high < 0.0 ? "" : figure(event.high), "damage thresholds",
                   kWords[static_cast<std::size_t>(event.cause)],
                   event.crop.known() ? catalogue.crop(event.crop).id : "",
                   pathogen.sources.empty() ? "" : pathogen.sources.front().text});
}

}  // namespace

std::string ledger_csv(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                       const std::vector<ledger::BedAccount>& accounts, std::optional<int> year) {
  std::string out = csv_line({"bed", "week", "date", "account", "what", "amount", "low", "high",
                              "unit", "cause", "crop", "source"});
  const auto asked = [&](calendar::Week week) {
    return !year || calendar::iso(week).year == *year;
  };
  for (const ledger::BedAccount& account : accounts) {
    const std::string& bed = garden.bed(account.bed).name;
    for (const nitrogen::Posting& posting : account.postings) {
      if (asked(posting.week)) out += posting_row(bed, posting, catalogue);
    }
    for (const ledger::LoadEvent& event : account.load_events) {
      if (asked(event.week)) out += load_row(bed, event, account, catalogue);
    }
  }
  return out;
}

}  // namespace aftercrop::emit
