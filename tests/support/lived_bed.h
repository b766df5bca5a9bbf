#pragma once

#include <rapidcheck.h>

#include <array>
#include <map>
#include <string>
#include <vector>

#include "aftercrop/ledger/account.h"
#include "aftercrop/load/load.h"

// Beds that live through seasons made up at random: any crop after any other, long and short
// stands, every ending, climates of both hemispheres. What the ledgers promise must hold there too.
namespace aftercrop::support {

inline const catalogue::Catalogue& embedded() { return load::embedded_catalogue(); }

inline constexpr std::array<const char*, 6> kClimates = {
    "minneapolis", "utrecht", "sacramento", "hobart", "christchurch", "singapore"};

inline calendar::WeekSpan three_years() {
  return {*calendar::parse_week("2027-W01"), *calendar::parse_week("2030-W01")};
}

/// A garden of one bed on a loam, without records.
inline garden::Garden one_bed(const std::string& climate) {
  garden::Garden garden;
  garden.name = "Lot";
  const catalogue::ClimateNormals* normals = embedded().find_climate(climate);
  if (normals != nullptr) garden.site.normals = *normals;
  garden.seasons = three_years();
  garden.years = 3;
  garden::Bed bed;
  bed.name = bed.whole = "A";
  bed.area = units::SquareMetres(10);
  bed.soil = *embedded().find_soil("loam");
  garden.beds.push_back(bed);
  return garden;
}

/// The climate of such a garden; worked out once a place.
inline const climate::SiteClimate& climate_of(const std::string& place) {
  static std::map<std::string, ledger::SiteClimates> known;
  const auto found = known.find(place);
  if (found != known.end()) return found->second.of(garden::Shelter::Open);
  return known.emplace(place, ledger::SiteClimates(one_bed(place), embedded()))
      .first->second.of(garden::Shelter::Open);
}

/// Anywhere in the range from the first run on (rapidcheck starts small by itself).
inline int pick(int low, int past) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, past));
}

inline garden::Planting planted(catalogue::CropId crop, calendar::Week first, int weeks,
                                catalogue::Ending ending) {
  garden::Planting one;
  one.bed = garden::BedId(0);
  one.crop = crop;
  one.from = calendar::monday(first);
  one.to = calendar::monday(first + calendar::Weeks(weeks));
  one.ending = ending;
  if (!embedded().crop(crop).is_cover() && weeks > 2) {
    one.harvest = calendar::DateSpan{calendar::monday(first + calendar::Weeks(weeks - 2)), one.to};
  }
  return one;
}

/// Stands one after another from the start of the seasons, never two at once.
inline std::vector<garden::Planting> any_plantings() {
  const calendar::WeekSpan seasons = three_years();
  std::vector<garden::Planting> all;
  calendar::Week week = seasons.first + calendar::Weeks(pick(0, 20));
  while (week < seasons.past && all.size() < 12) {
    const catalogue::CropId crop(pick(0, static_cast<int>(embedded().crops.size())));
    const int weeks = pick(1, 70);
    const auto ending = static_cast<catalogue::Ending>(pick(0, 8));
    all.push_back(planted(crop, week, weeks, ending));
    week = week + calendar::Weeks(weeks + pick(0, 25));
  }
  return all;
}

/// A garden with records: what was spread, tested and seen, at random.
inline garden::Garden any_garden(const std::string& climate) {
  garden::Garden garden = one_bed(climate);
  garden::Bed& bed = garden.beds.front();
  bed.soil = catalogue::SoilId(pick(0, static_cast<int>(embedded().soils.size())));
  bed.organic_matter_pct = pick(0, 13);
  bed.ph = pick(45, 85) / 10.0;
  bed.watered = pick(0, 2) == 0;
  bed.poorly_drained = pick(0, 3) == 0;
  const auto day = [&] {
    return calendar::monday(garden.seasons.first + calendar::Weeks(pick(0, 150)));
  };
  for (int i = pick(0, 4); i > 0; --i) {
    garden::Application spread;
    spread.bed = garden::BedId(0);
    spread.date = day();
    spread.material =
        catalogue::AmendmentId(pick(0, static_cast<int>(embedded().amendments.size())));
    spread.kg_per_m2 = pick(0, 40) / 10.0;
    garden.applications.push_back(spread);
  }
  for (int i = pick(0, 3); i > 0; --i) {
    garden::SoilTest test;
    test.bed = garden::BedId(0);
    test.date = day();
    test.nitrate_n_ppm = pick(0, 50);
    garden.tests.push_back(test);
  }
  for (int i = pick(0, 4); i > 0; --i) {
    garden::Sighting sighting;
    sighting.bed = garden::BedId(0);
    sighting.date = day();
    sighting.disease =
        catalogue::PathogenId(pick(0, static_cast<int>(embedded().pathogens.size())));
    sighting.severity = static_cast<garden::SightingSeverity>(pick(0, 3));
    garden.sightings.push_back(sighting);
  }
  return garden;
}

inline ledger::BedLedger ledger_of(const garden::Garden& garden, const std::string& climate) {
  return {embedded(), garden, garden::BedId(0), climate_of(climate),
          ledger::tracked_pathogens(garden, embedded(), true)};
}

}  // namespace aftercrop::support
