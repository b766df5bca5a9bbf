#include <algorithm>

#include "aftercrop/ledger/account.h"

namespace aftercrop::ledger {
namespace {

catalogue::Catalogue at_end(const catalogue::Catalogue& rows, double catalogue::Range::*half_life,
                            double catalogue::Range::*efficacy) {
  catalogue::Catalogue ended = rows;
  for (catalogue::Pathogen& pathogen : ended.pathogens) {
    pathogen.half_life_years.typical = pathogen.half_life_years.*half_life;
    for (catalogue::Biofumigation& row : pathogen.biofumigation) {
      row.efficacy.typical = row.efficacy.*efficacy;
    }
  }
  return ended;
}

void add_spans(BedAccount& account, const BedAccount& fastest, const BedAccount& slowest) {
  // The three have the same events in the same order: only the loads differ.
  const std::size_t count = std::min(
      {account.load_events.size(), fastest.load_events.size(), slowest.load_events.size()});
  for (std::size_t i = 0; i < count; ++i) {
    LoadEvent& event = account.load_events[i];
    event.low = std::min(event.load, fastest.load_events[i].load);
    event.high = std::max(event.load, slowest.load_events[i].load);
  }
}

}  // namespace

catalogue::Catalogue at_its_fastest(const catalogue::Catalogue& rows) {
  return at_end(rows, &catalogue::Range::low, &catalogue::Range::high);
}

catalogue::Catalogue at_its_slowest(const catalogue::Catalogue& rows) {
  return at_end(rows, &catalogue::Range::high, &catalogue::Range::low);
}

void add_load_spans(std::vector<BedAccount>& accounts, const garden::Garden& garden,
                    const catalogue::Catalogue& rows, const SiteClimates& climates,
                    const garden::Plan& plan) {
  const auto tracked = tracked_pathogens(garden, rows, true);
  if (tracked.empty()) return;
  const catalogue::Catalogue fast_rows = at_its_fastest(rows);
  const catalogue::Catalogue slow_rows = at_its_slowest(rows);
  for (BedAccount& account : accounts) {
    const auto at = [&](const catalogue::Catalogue& ended) {
      const climate::SiteClimate& site = climates.of(garden.bed(account.bed).shelter);
      return ledger::account(BedLedger(ended, garden, account.bed, site, tracked), garden, plan);
    };
    add_spans(account, at(fast_rows), at(slow_rows));
  }
}

}  // namespace aftercrop::ledger
