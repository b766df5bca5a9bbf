#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/catalogue/family.h"
#include "aftercrop/catalogue/pathogen.h"
#include "aftercrop/catalogue/site_rows.h"

namespace aftercrop::catalogue {

/// A partner row: what may stand beside a crop, and how sure that is (grades A, B, C).
struct PartnerRow {
  std::string id;
  std::vector<CropId> partner_crops;
  std::vector<CropId> partner_for;  ///< empty = any crop
  std::vector<std::string> pests;   ///< troubles it answers ("flea-beetle")
  std::string mechanism;
  std::string placement;
  std::string effect;
  std::string cost;
  int watch_days = 0;  ///< a trap that must be looked at so often; 0 = none
  std::string watch;   ///< what to do there
  char grade = 'C';
  std::vector<Citation> sources;
};

/// All rows, as loaded. Plain data: rows refer to each other by index.
struct Catalogue {
  std::vector<Family> families;
  std::vector<BreakGroup> groups;
  std::vector<CrossBreak> cross_breaks;
  std::vector<Crop> crops;
  std::vector<Pathogen> pathogens;
  std::vector<HostReturn> host_returns;
  std::vector<ClimateNormals> climates;
  std::vector<Soil> soils;
  std::vector<Amendment> amendments;
  std::vector<ResidueClass> residues;
  std::vector<PartnerRow> partners;
  std::vector<Caution> cautions;
  Coefficients coefficients;
  std::vector<Citation> bibliography;  ///< `topic` = the key by which rows of a file name a source

  [[nodiscard]] const Crop& crop(CropId id) const { return crops[id.place()]; }
  [[nodiscard]] const Family& family(FamilyId id) const { return families[id.place()]; }
  [[nodiscard]] const BreakGroup& group(BreakGroupId id) const { return groups[id.place()]; }
  [[nodiscard]] const Pathogen& pathogen(PathogenId id) const { return pathogens[id.place()]; }
  [[nodiscard]] const Soil& soil(SoilId id) const { return soils[id.place()]; }
  [[nodiscard]] const Amendment& amendment(AmendmentId id) const { return amendments[id.place()]; }

  /// By exact id only; names people type go through load/names.
  [[nodiscard]] std::optional<CropId> find_crop(std::string_view id) const;
  [[nodiscard]] std::optional<PathogenId> find_pathogen(std::string_view id) const;
  [[nodiscard]] std::optional<SoilId> find_soil(std::string_view id) const;
  [[nodiscard]] std::optional<AmendmentId> find_amendment(std::string_view id) const;
  [[nodiscard]] const ClimateNormals* find_climate(std::string_view id) const;
  [[nodiscard]] const Caution* find_caution(std::string_view id) const;

  /// Break between two stands, each a crop or a cover. `refuse_covers` = the group's trigger
  /// pathogen was seen in the garden. Same group and cross-group pairs; {0, 0} where none binds.
  [[nodiscard]] Break break_between(CropId earlier, CropId later, bool refuse_covers) const;
};

}  // namespace aftercrop::catalogue
