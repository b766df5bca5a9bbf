#pragma once

#include "aftercrop/catalogue/catalogue.h"
#include "support/sites.h"

// A dozen crops, three soils, three materials and two diseases: enough to read a garden with.
// Figures are typical ones; checks of the readers do not follow the catalogue.
namespace aftercrop::support {

namespace small {

inline catalogue::Crop crop(const char* id, const char* name, int family, double days_min,
                            double days_max, double yield) {
  catalogue::Crop made;
  made.id = id;
  made.name = name;
  made.family = catalogue::FamilyId(family);
  made.group = catalogue::BreakGroupId(family);
  made.days_min = days_min;
  made.days_max = days_max;
  made.harvest_weeks_min = 2;
  made.harvest_weeks_max = 4;
  made.yield_unit = catalogue::YieldUnit::Kilograms;
  made.yield_per_m2 = {yield / 2, yield, yield * 2};
  made.in_row_cm = 40;
  made.between_row_cm = 50;
  made.edible_part = "fruit";
  return made;
}

inline catalogue::Crop salad(const char* id, const char* name, double yield) {
  catalogue::Crop made = crop(id, name, 1, 40, 50, yield);
  made.edible_part = "leaf";
  made.succession_weeks = 2;
  return made;
}

inline catalogue::Crop cover(const char* id, const char* name, int family) {
  catalogue::Crop made = crop(id, name, family, 60, 90, 0);
  made.kind = "cover";
  made.yield_unit = catalogue::YieldUnit::None;
  made.cover.emplace();
  made.cover->windows = {
      {catalogue::FrostAnchor::LastFrost, -6, catalogue::FrostAnchor::LastFrost, 8},
      {catalogue::FrostAnchor::FirstFrost, -8, catalogue::FrostAnchor::FirstFrost, 2}};
  made.cover->endings = {catalogue::Ending::Incorporated, catalogue::Ending::CutRootsLeft};
  made.kill_c = -30;
  return made;
}

inline std::vector<catalogue::Crop> crops() {
  std::vector<catalogue::Crop> all;
  catalogue::Crop tomato = crop("tomato", "tomato", 0, 65, 100, 4.0);
  tomato.start = catalogue::Start::Transplant;
  tomato.sowing_class = catalogue::SowingClass::Tender;
  tomato.base_c = 10;
  tomato.kill_c = 0;
  tomato.days_from_transplanting = true;
  all.push_back(tomato);
  catalogue::Crop cherry = tomato;
  cherry.id = "tomato-cherry";
  cherry.name = "cherry tomato";
  all.push_back(cherry);
  all.push_back(salad("lettuce-head", "head lettuce", 2.6));
  all.push_back(salad("lettuce-leaf", "leaf lettuce", 1.7));
  catalogue::Crop carrot = crop("carrot", "carrot", 2, 60, 85, 3.0);
  carrot.edible_part = "root";
  carrot.kill_c = -8;
  all.push_back(carrot);
  catalogue::Crop bean = crop("bush-bean", "bush bean (snap)", 3, 46, 65, 1.0);
  bean.also = {"bean", "snap bean", "french bean", "green bean"};
  bean.sowing_class = catalogue::SowingClass::Tender;
  bean.base_c = 10;
  bean.kill_c = 0;
  all.push_back(bean);
  catalogue::Crop garlic = crop("garlic", "garlic", 4, 240, 280, 0.8);
  garlic.edible_part = "bulb";
  garlic.overwinters = true;
  garlic.start = catalogue::Start::Clove;
  garlic.base_c = 0;
  garlic.kill_c = -30;
  all.push_back(garlic);
  catalogue::Crop kale = crop("kale", "kale", 5, 45, 65, 1.8);
  kale.edible_part = "leaf";
  kale.kill_c = -12;
  kale.overwinters = true;
  all.push_back(kale);
  all.push_back(salad("mustard-greens", "mustard greens", 1.8));
  all.back().family = catalogue::FamilyId(5);
  all.push_back(cover("mustard-white", "white mustard", 5));
  all.push_back(cover("rye", "winter rye", 6));
  all.push_back(cover("red-clover", "red clover", 3));
  all.push_back(cover("crimson-clover", "crimson clover", 3));
  return all;
}

inline catalogue::Soil soil(const char* id, const char* name, double density) {
  catalogue::Soil made;
  made.id = id;
  made.name = name;
  made.bulk_density = density;
  return made;
}

inline catalogue::Amendment amendment(const char* id, const char* name, double n_pct,
                                      double available) {
  catalogue::Amendment made;
  made.id = id;
  made.name = name;
  made.n_pct = n_pct;
  made.available = {available / 2, available, available * 2};
  return made;
}

inline catalogue::Pathogen pathogen(const char* id, const char* name) {
  catalogue::Pathogen made;
  made.id = id;
  made.name = name;
  return made;
}

}  // namespace small

inline catalogue::Catalogue small_catalogue() {
  catalogue::Catalogue made;
  made.crops = small::crops();
  made.soils = {small::soil("loam", "loam", 1.35), small::soil("sandy-loam", "sandy loam", 1.45),
                small::soil("silt-loam", "silt loam", 1.3)};
  made.amendments = {small::amendment("compost", "garden compost", 1.0, 0.03),
                     small::amendment("blood-meal", "blood meal", 12.5, 0.66)};
  made.pathogens = {small::pathogen("verticillium-wilt", "Verticillium wilt"),
                    small::pathogen("clubroot", "clubroot")};
  for (const char* id : {"minneapolis", "hobart", "london"})
    made.climates.push_back(site_normals(id));
  made.coefficients = load::embedded_catalogue().coefficients;
  return made;
}

}  // namespace aftercrop::support
