#pragma once

#include "load/catalogue_row.h"

namespace aftercrop::load {

/// Readers of one table each. They report and go on; a row that cannot be read is left out.

/// `family:`, `name:`, `trade_name:`, `also:`, `breaks:`, `cross_breaks:` of a family's file.
void read_family(const RowFields& file, CatalogueBuild& build);
/// `crops:`; `family` is the family of the file, unknown where it names none.
void read_crops(const Node& node, catalogue::FamilyId family, CatalogueBuild& build);
/// `mixtures:`: covers made of covers with shares.
void read_mixtures(const Node& node, CatalogueBuild& build);
void read_pathogens(const Node& node, CatalogueBuild& build);
void read_host_returns(const Node& node, CatalogueBuild& build);
void read_climates(const Node& node, CatalogueBuild& build);
void read_soils(const Node& node, CatalogueBuild& build);
void read_amendments(const Node& node, CatalogueBuild& build);
void read_residues(const Node& node, CatalogueBuild& build);
void read_partners(const Node& node, CatalogueBuild& build);
void read_cautions(const Node& node, CatalogueBuild& build);
void read_ledger(const Node& node, CatalogueBuild& build);
/// `site:`: what a climate does to soil, water and crops.
void read_site_coefficients(const Node& node, CatalogueBuild& build);

/// A new crop that is like another is a host, a partner and a follower wherever the other is.
void join_like(catalogue::CropId fresh, catalogue::CropId like, catalogue::Catalogue& rows);
/// A new crop of a family all of whose crops suffer from a disease is taken to suffer too.
void join_family(catalogue::CropId fresh, catalogue::Catalogue& rows);
/// Forms share what their crop has, mixtures are hosts where one of their parts is.
void join_kin(catalogue::Catalogue& rows);

/// Parts of a crop row.
void read_crop_growing(const RowFields& fields, catalogue::Crop& crop,
                       diagnostic::Diagnostics& out);
void read_crop_nitrogen(const RowFields& fields, catalogue::Crop& crop,
                        diagnostic::Diagnostics& out);
void read_cover(const RowFields& fields, catalogue::Crop& crop, diagnostic::Diagnostics& out);
/// `source:`, after the figures: in a file of the user's own, what a row changes gets its source,
/// the file and line where it names none.
void read_crop_source(const RowFields& row, catalogue::Crop& crop, CatalogueBuild& build);

}  // namespace aftercrop::load
