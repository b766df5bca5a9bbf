// Bed-weeks a second of the two ledgers on one core, by garden size, with and without postings.
// The state is whole: all pools, all pathogens that such a garden carries, breaks and forecrops.
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>
#include <vector>

#include "aftercrop/ledger/account.h"
#include "aftercrop/load/load.h"

using namespace aftercrop;
using calendar::Week;
using calendar::Weeks;

namespace {

constexpr int kYears = 5;

const catalogue::Catalogue& rows() { return load::embedded_catalogue(); }

/// Beds of four soils, and diseases that were seen in the garden.
garden::Garden kinds() {
  garden::Garden garden;
  garden.name = "bench";
  garden.site.normals = *rows().find_climate("minneapolis");
  garden.seasons = {*calendar::parse_week("2027-W01"), *calendar::parse_week("2032-W01")};
  garden.years = kYears;
  for (const char* soil : {"loam", "silt-loam", "sandy-loam", "clay-loam"}) {
    garden::Bed bed;
    bed.name = bed.whole = soil;
    bed.area = units::SquareMetres(10);
    bed.soil = *rows().find_soil(soil);
    garden.beds.push_back(bed);
  }
  for (const char* seen : {"clubroot", "verticillium-wilt", "white-mould", "lesion-nematode",
                           "root-knot-northern", "white-rot-onion"}) {
    garden::Sighting sighting;
    sighting.bed = garden::BedId(0);
    sighting.disease = *rows().find_pathogen(seen);
    sighting.date = *calendar::Date::parse("2027-01-04");
    garden.sightings.push_back(sighting);
  }
  return garden;
}

struct Planned {
  const char* crop;
  int week;  ///< of the seasons
  int weeks;
  catalogue::Ending ending;
};

/// A five-year rotation with covers: what a garden of this kind grows.
std::vector<ledger::Stand> stands_of(const ledger::BedLedger& ledger) {
  using catalogue::Ending;
  const std::vector<Planned> plan = {{"pea-shell", 14, 12, Ending::HarvestedCut},
                                     {"kale", 27, 16, Ending::HarvestedCut},
                                     {"rye", 43, 26, Ending::Incorporated},
                                     {"potato", 70, 18, Ending::HarvestedPulled},
                                     {"hairy-vetch", 89, 37, Ending::CutRootsLeft},
                                     {"tomato", 126, 18, Ending::HarvestedPulled},
                                     {"oat", 145, 26, Ending::Winterkilled},
                                     {"carrot", 172, 16, Ending::HarvestedPulled},
                                     {"lettuce-leaf", 189, 8, Ending::HarvestedCut},
                                     {"garlic", 200, 38, Ending::HarvestedPulled},
                                     {"crimson-clover", 239, 21, Ending::Incorporated}};
  std::vector<ledger::Stand> stands;
  for (const Planned& one : plan) {
    ledger::StandSpec spec;
    spec.crop = *rows().find_crop(one.crop);
    spec.weeks.first = ledger.garden().seasons.first + Weeks(one.week);
    spec.weeks.past = spec.weeks.first + Weeks(one.weeks);
    spec.harvest = {spec.weeks.past - Weeks(std::min(4, one.weeks)), spec.weeks.past};
    spec.ending = one.ending;
    stands.push_back(ledger.make_stand(spec));
  }
  return stands;
}

struct Run {
  long weeks = 0;
  long planted = 0;
  double check = 0.0;  ///< so that no work can be left out
};

void live(const ledger::BedLedger& ledger, const std::vector<ledger::Stand>& stands,
          ledger::BedState& state, nitrogen::Journal* journal, Run& run) {
  const Week start = state.week;
  for (const ledger::Stand& stand : stands) {
    ledger.idle(state, stand.spec.weeks.first, journal);
    ledger.advance(state, stand, journal);
    run.planted += stand.spec.weeks.length().count();
  }
  ledger.idle(state, ledger.garden().seasons.past, journal);
  run.weeks += (state.week - start).count();
  run.check += state.pools.mineral + state.loads.front().central;
}

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

long peak_kib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

struct Kind {
  ledger::BedLedger ledger;
  std::vector<ledger::Stand> stands;
};

/// All beds through all years, as often as `seconds` allow; bed-weeks a second.
double rate(const std::vector<Kind>& made, std::size_t beds, bool postings, double seconds,
            Run& run) {
  std::vector<ledger::BedState> states(beds);
  double spent = 0.0;
  long weeks = 0;
  do {
    for (std::size_t i = 0; i < beds; ++i) states[i] = made[i % made.size()].ledger.opening();
    run = Run();
    const auto start = std::chrono::steady_clock::now();
    for (std::size_t i = 0; i < beds; ++i) {
      const Kind& kind = made[i % made.size()];
      nitrogen::Journal journal;  // one bed's postings at a time
      live(kind.ledger, kind.stands, states[i], postings ? &journal : nullptr, run);
    }
    spent += seconds_since(start);
    weeks += run.weeks;
  } while (spent < seconds);
  return static_cast<double>(weeks) / spent;
}

}  // namespace

int main(int argc, char** argv) {
  const double seconds = argc > 1 ? std::atof(argv[1]) : 1.0;
  const garden::Garden garden = kinds();
  const ledger::SiteClimates climates(garden, rows());
  const auto tracked = ledger::tracked_pathogens(garden, rows(), true);
  std::vector<Kind> made;
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    ledger::BedLedger ledger(rows(), garden, garden::BedId(i), climates.of(garden::Shelter::Open),
                             tracked);
    std::vector<ledger::Stand> stands = stands_of(ledger);
    made.push_back({std::move(ledger), std::move(stands)});
  }
  fmt::print("{} pathogens, {} years; bed-weeks a second on one core\n", tracked.size(), kYears);
  fmt::print("{:>7} {:>9} {:>16} {:>16} {:>12} {:>18}\n", "beds", "planted", "no postings",
             "with postings", "bytes a bed", "check");
  for (const std::size_t beds : {10UL, 100UL, 1000UL, 10000UL}) {
    Run run;
    const double silent = rate(made, beds, false, seconds, run);
    const double noted = rate(made, beds, true, seconds, run);
    const double planted = static_cast<double>(run.planted) / static_cast<double>(run.weeks);
    const std::size_t bytes = sizeof(ledger::BedState) + tracked.size() * sizeof(ledger::Load);
    fmt::print("{:>7} {:>8.0f}% {:>16.0f} {:>16.0f} {:>12} {:>18.9f}\n", beds, 100 * planted,
               silent, noted, bytes, run.check / static_cast<double>(beds));
  }
  fmt::print("peak memory {:.1f} MB\n", static_cast<double>(peak_kib()) / 1024.0);
  return 0;
}
