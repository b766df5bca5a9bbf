#pragma once

#include "load/catalogue_row.h"

namespace aftercrop::load {

/// Readers of one table each. They report and go on; a row that cannot be read is left out.

/// `family:`, `name:`, `trade_name:`, `also:`, `breaks:`, `cross_breaks:` of a family's file.
void read_family(const RowFields& file, CatalogueBuild& build);
/// `crops:`; `family` is the family of the file, unknown where it names none.
void read_crops(const Node& node, catalogue::FamilyId family, CatalogueBuild& build);
void read_pathogens(const Node& node, CatalogueBuild& build);
void read_host_returns(const Node& node, CatalogueBuild& build);
void read_climates(const Node& node, CatalogueBuild& build);
void read_soils(const Node& node, CatalogueBuild& build);
void read_amendments(const Node& node, CatalogueBuild& build);
void read_residues(const Node& node, CatalogueBuild& build);
void read_partners(const Node& node, CatalogueBuild& build);
void read_cautions(const Node& node, CatalogueBuild& build);
void read_ledger(const Node& node, CatalogueBuild& build);

/// Parts of a crop row.
void read_crop_growing(const RowFields& fields, catalogue::Crop& crop,
                       diagnostic::Diagnostics& out);
void read_crop_nitrogen(const RowFields& fields, catalogue::Crop& crop,
                        diagnostic::Diagnostics& out);
void read_cover(const RowFields& fields, catalogue::Crop& crop, diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
