#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/ids.h"
#include "aftercrop/catalogue/range.h"

namespace aftercrop::catalogue {

enum class HostRole { None, Prone, Partial, Carrier };

/// One host of a pathogen.
struct Host {
  CropId crop;
  HostRole role = HostRole::Prone;
  double gain = 1.0;  ///< h: multiplies the pathogen's gain (prone 1, partial 0.5, carrier 0.25)
  double tolerance = 1.0;  ///< tau: divides the load before the threshold test
};

/// A point of a straight-line factor (soil pH against infection).
struct FactorPoint {
  double at = 0.0;
  double factor = 1.0;
};

/// A crop or residue that lowers the load, with its published span (fractions of the load).
struct Biofumigation {
  std::vector<CropId> plants;
  Range efficacy;             ///< low decides permission, typical is reported
  bool crop_residue = false;  ///< works as chopped crop residue (broccoli), no fumigant conditions
  std::vector<Citation> sources;
};

/// Crops that suffer from a lighter load where another trouble stands in the bed too.
struct Aggravation {
  PathogenId disease;       ///< the other one
  double from_load = 0.25;  ///< from this load of it on
  std::vector<CropId> crops;
  double factor = 1.0;  ///< the load counts so many times
  std::vector<Citation> sources;
};

/// A soil-borne trouble whose load is carried bed by bed, relative to the damage threshold of a
/// fully susceptible crop.
struct Pathogen {
  std::string id;
  std::string name;
  std::string cause;
  std::string survives_as;  ///< "resting spores"
  std::string scale;        ///< "spores/g", or "relative"
  double threshold = 1.0;   ///< on `scale`
  Range half_life_years;    ///< without a host
  Range break_years;        ///< between host crops
  double gain = 2.0;        ///< doublings in one full season of a good host
  double ceiling = 16.0;    ///< in units of the threshold
  bool background = false;  ///< assumed everywhere at a low load; otherwise nil until seen
  double advise_at = 0.25;
  double residue_carried_off = 0.3;    ///< share of the gain that pulled plants take with them
  std::vector<FactorPoint> ph_factor;  ///< empty = soil pH does not matter
  double wet_factor = 1.0;             ///< for beds marked poorly drained
  double cool_below_c = -100.0;        ///< soil below this over the stand: times `cool_factor`
  double cool_factor = 1.0;
  int cool_weeks = 0;           ///< 0 = whole stand; else only its first weeks decide
  double warm_above_c = 100.0;  ///< soil above this over the stand: times `warm_factor`
  double warm_factor = 1.0;
  std::vector<Host> hosts;  ///< sorted by crop; a crop not listed is no host
  std::vector<Biofumigation> biofumigation;
  std::vector<Aggravation> worse_with;
  std::vector<std::string> weeds;    ///< that keep it going
  std::vector<std::string> no_help;  ///< what was tried and did not lower it, in words
  std::vector<Citation> sources;

  [[nodiscard]] const Host* host(CropId crop) const;
};

/// Two crops of different families that must not follow each other too soon.
struct HostReturn {
  std::vector<CropId> crops;
  std::vector<CropId> after;
  int min = 0;         ///< seasons between: below it a warning
  int rec = 0;         ///< below it a note
  PathogenId if_seen;  ///< unknown = always; else only where this was seen in the bed
  std::string reason;
  std::vector<Citation> sources;
};

}  // namespace aftercrop::catalogue
