#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::Crop;
using catalogue::Curve;
using catalogue::Feeder;

const std::vector<std::pair<std::string_view, Feeder>> kFeeders = {{"light", Feeder::Light},
                                                                   {"medium", Feeder::Medium},
                                                                   {"heavy", Feeder::Heavy},
                                                                   {"legume", Feeder::Legume}};
const std::vector<std::pair<std::string_view, Curve>> kCurves = {
    {"heading", Curve::Heading}, {"leafy", Curve::Leafy},        {"root", Curve::Root},
    {"bulb", Curve::Bulb},       {"fruiting", Curve::Fruiting},  {"maize", Curve::Maize},
    {"tuber", Curve::Tuber},     {"grain", Curve::Grain},        {"legume", Curve::Legume},
    {"cover", Curve::Cover},     {"perennial", Curve::Perennial}};

constexpr Limits kShare{0, 1};

}  // namespace

void read_crop_nitrogen(const RowFields& row, Crop& crop, diagnostic::Diagnostics& out) {
  row.choice("feeder", crop.feeder, kFeeders);
  catalogue::NitrogenFigures& figures = crop.nitrogen;
  if (const Node* node = row.get("nitrogen")) {
    const RowFields fields(
        *node, "nitrogen",
        {"yield_t_ha", "uptake_kg_ha", "harvest_kg_per_t", "residue_n_pct", "step_kg_ha",
         "depth_cm", "residual_kg_ha", "curve", "below_ground_share", "root_n_pct"},
        out);
    fields.number("yield_t_ha", figures.yield_t_ha, {0.5, 300});
    fields.number("uptake_kg_ha", figures.uptake_kg_ha, {5, 600});
    fields.number("harvest_kg_per_t", figures.harvest_kg_per_t, {0, 60});
    fields.number("residue_n_pct", figures.residue_n_pct, {0.2, 8});
    fields.number("step_kg_ha", figures.step_kg_ha, {0, 100});
    fields.number("depth_cm", figures.depth_cm, {15, 120});
    fields.number("residual_kg_ha", figures.residual_kg_ha, {0, 100});
    fields.choice("curve", figures.curve, kCurves);
    fields.number("below_ground_share", figures.below_ground_share, {0.01, 0.7});
    fields.number("root_n_pct", figures.root_n_pct, {0.2, 6});
  }
  if (const Node* node = row.get("fixation")) {
    const RowFields fields(*node, "fixation", {"share", "ceiling"}, out);
    fields.number("share", figures.fixation_share, kShare);
    fields.number("ceiling", figures.fixation_ceiling, kShare);
    check_order(figures.fixation_share, figures.fixation_ceiling, "fixation", node->source, out);
  }
  crop.legume = figures.fixation_share > 0.0;
}

}  // namespace aftercrop::load
