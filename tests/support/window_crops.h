#pragma once

#include <stdexcept>
#include <string>

#include "aftercrop/catalogue/crop.h"

// The figures of a dozen crops and covers that sowing windows turn on, typed in from the same
// extension tables as the catalogue: checks of the climate do not follow it.
namespace aftercrop::support {

struct WindowCrop {
  const char* id;
  catalogue::Start start;
  catalogue::SowingClass sowing_class;
  bool from_transplanting;
  double days_min;
  double days_max;
  double base_c;
  double cap_c;
  double soil_min_c;
  double growth_min_c;
  double growth_max_c;
  double kill_c;
  bool overwinters;
  int harvest_weeks;
};

inline const WindowCrop kWindowCrops[] = {
    // clang-format off
    {"tomato", catalogue::Start::Transplant, catalogue::SowingClass::Tender, true, 65, 100, 10, 30, 14, 18, 27, 0, false, 6},
    {"garlic", catalogue::Start::Clove, catalogue::SowingClass::Hardy, false, 240, 280, 0, 24, 4, 7, 29, -30, true, 1},
    {"pea-shell", catalogue::Start::Sow, catalogue::SowingClass::Hardy, false, 58, 77, 4.4, 24, 4, 7, 24, -4, false, 2},
    {"sweet-corn", catalogue::Start::Sow, catalogue::SowingClass::Tender, false, 70, 100, 10, 30, 13, 10, 35, 0, false, 1},
    {"cucumber", catalogue::Start::Either, catalogue::SowingClass::VeryTender, false, 60, 70, 12.8, 32, 16, 16, 32, 0, false, 4},
    {"lettuce-head", catalogue::Start::Transplant, catalogue::SowingClass::Hardy, true, 50, 70, 4.4, 24, 2, 7, 24, -4, false, 1},
    {"radish", catalogue::Start::Sow, catalogue::SowingClass::HalfHardy, false, 22, 40, 4.4, 24, 4, 4, 24, -6, false, 1},
    {"spinach", catalogue::Start::Sow, catalogue::SowingClass::Hardy, false, 40, 50, 4.4, 24, 2, 4, 24, -15, true, 2},
    {"carrot", catalogue::Start::Sow, catalogue::SowingClass::HalfHardy, false, 60, 85, 4.4, 24, 4, 7, 24, -8, false, 3},
    {"leek", catalogue::Start::Transplant, catalogue::SowingClass::Hardy, true, 100, 150, 1.7, 24, 2, 7, 29, -12, true, 6},
    {"kale", catalogue::Start::Either, catalogue::SowingClass::Hardy, true, 45, 65, 0, 21, 4, 4, 24, -12, false, 8},
    {"onion-bulb", catalogue::Start::Transplant, catalogue::SowingClass::Hardy, true, 85, 120, 1.7, 24, 2, 7, 29, -7, false, 1},
    {"potato", catalogue::Start::Tuber, catalogue::SowingClass::HalfHardy, false, 90, 120, 4.4, 24, 6, 7, 24, 0, false, 1},
    {"sprouting-broccoli", catalogue::Start::Transplant, catalogue::SowingClass::Hardy, true, 220, 270, 0, 21, 4, 4, 24, -12, true, 4},
    // clang-format on
};

inline catalogue::Crop window_crop(const std::string& id) {
  for (const WindowCrop& row : kWindowCrops) {
    if (id != row.id) continue;
    catalogue::Crop crop;
    crop.id = crop.name = row.id;
    crop.start = row.start;
    crop.sowing_class = row.sowing_class;
    crop.days_from_transplanting = row.from_transplanting;
    crop.days_min = row.days_min;
    crop.days_max = row.days_max;
    crop.base_c = row.base_c;
    crop.cap_c = row.cap_c;
    crop.soil_min_c = row.soil_min_c;
    crop.growth_min_c = row.growth_min_c;
    crop.growth_max_c = row.growth_max_c;
    crop.kill_c = row.kill_c;
    crop.overwinters = row.overwinters;
    crop.harvest_weeks_min = crop.harvest_weeks_max = row.harvest_weeks;
    return crop;
  }
  throw std::invalid_argument("no test crop " + id);
}

inline catalogue::Crop window_cover(const std::string& id, catalogue::CoverWindow window,
                                    int weeks_to_stand, double base_c, double kill_c) {
  catalogue::Crop crop;
  crop.id = crop.name = id;
  crop.base_c = base_c;
  crop.soil_min_c = 4.0;
  crop.growth_min_c = 4.0;
  crop.growth_max_c = 26.0;
  crop.kill_c = kill_c;
  catalogue::CoverFigures figures;
  figures.windows = {window};
  figures.weeks_to_stand = weeks_to_stand;
  crop.cover = figures;
  return crop;
}

}  // namespace aftercrop::support
