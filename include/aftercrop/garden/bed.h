#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "aftercrop/catalogue/ids.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/units/quantity.h"

namespace aftercrop::garden {

using BedId = catalogue::Index<struct Bed>;

enum class Shelter { Open, Fleece, Tunnel };

/// One account of the garden: a bed, or one section of a divided bed ("N1.2"). Each has its own
/// ledgers and its own breaks.
struct Bed {
  std::string name;          ///< "N1" or "N1.2"
  std::string whole;         ///< "N1"
  int section = 0;           ///< 1.. in a divided bed, 0 for a whole one
  int sections = 1;          ///< of the whole bed
  units::SquareMetres area;  ///< of this section
  units::Metres length;      ///< of this section
  units::Metres width;
  catalogue::SoilId soil;
  double organic_matter_pct = 3.0;
  double ph = 6.5;
  Shelter shelter = Shelter::Open;
  bool watered = true;
  bool poorly_drained = false;
  bool bought_mix = false;                        ///< filled with bought soil
  std::vector<std::string> beside;                ///< names of neighbouring beds
  std::optional<std::pair<double, double>> lies;  ///< metres east and north, for the picture
  diagnostic::Source source;
};

}  // namespace aftercrop::garden
