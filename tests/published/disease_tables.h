#pragma once

#include <string>

#include "aftercrop/disease/load.h"
#include "aftercrop/load/load.h"
#include "support/check_table.h"

// The parts of the disease table, by subject, and what they share.
namespace aftercrop::published {

inline const catalogue::Catalogue& disease_rows() { return load::embedded_catalogue(); }

inline const catalogue::Pathogen& pathogen(const char* id) {
  const auto found = disease_rows().find_pathogen(id);
  REQUIRE_MESSAGE(found, id);
  return disease_rows().pathogen(*found);
}

inline catalogue::CropId crop_id(const char* id) {
  const auto found = disease_rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return *found;
}

inline disease::LoadMap rest(double half_life, double years) {
  return disease::decay(years * 365.25 / 7.0, half_life);
}
inline disease::LoadMap rest(const catalogue::Pathogen& of, double years) {
  return rest(of.half_life_years.typical, years);
}

/// A full season of a host as the row describes it, residues as the ending leaves them.
inline disease::LoadMap season(const catalogue::Pathogen& of, const char* host,
                               catalogue::Ending ending = catalogue::Ending::Incorporated) {
  const catalogue::Host* row = of.host(crop_id(host));
  REQUIRE_MESSAGE(row != nullptr, host);
  return disease::host_weeks(20, 20, disease::season_doublings(of, *row, ending), of.ceiling);
}

/// The row of what a plant does to a pathogen.
inline const catalogue::Biofumigation& effect(const catalogue::Pathogen& of, const char* plant) {
  for (const auto& one : of.biofumigation) {
    for (const auto id : one.plants) {
      if (id == crop_id(plant)) return one;
    }
  }
  FAIL("no such effect: ", std::string(plant));
  return of.biofumigation.front();
}

void check_decay(support::CheckTable& table);        // D1 to D10
void check_maps(support::CheckTable& table);         // D11 to D17, D20 to D22, D24
void check_years_off(support::CheckTable& table);    // D18, D19, D23
void check_conditions(support::CheckTable& table);   // D25 to D27
void check_successions(support::CheckTable& table);  // D28 to D45
void check_rotations(support::CheckTable& table);    // D46 to D55

}  // namespace aftercrop::published
