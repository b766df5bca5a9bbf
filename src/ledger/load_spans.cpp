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

}  // namespace

catalogue::Catalogue at_its_fastest(const catalogue::Catalogue& rows) {
  return at_end(rows, &catalogue::Range::low, &catalogue::Range::high);
}

catalogue::Catalogue at_its_slowest(const catalogue::Catalogue& rows) {
  return at_end(rows, &catalogue::Range::high, &catalogue::Range::low);
}

void add_load_spans(BedAccount& account, const BedAccount& fastest, const BedAccount& slowest) {
  // The three have the same events in the same order: only the loads differ.
  const std::size_t count = std::min(
      {account.load_events.size(), fastest.load_events.size(), slowest.load_events.size()});
  for (std::size_t i = 0; i < count; ++i) {
    LoadEvent& event = account.load_events[i];
    event.low = std::min(event.load, fastest.load_events[i].load);
    event.high = std::max(event.load, slowest.load_events[i].load);
  }
}

}  // namespace aftercrop::ledger
