#include <array>

#include "load/catalogue_coefficient.h"
#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::DiseaseCoefficients;
using catalogue::NitrogenCoefficients;
using catalogue::RuleCoefficients;

const CoefficientKeys<NitrogenCoefficients> kNitrogen = {
    {"supply_per_om", &NitrogenCoefficients::supply_per_om},
    {"slice_cm", &NitrogenCoefficients::slice_cm},
    {"slice_share", &NitrogenCoefficients::slice_share},
    {"recovery", &NitrogenCoefficients::recovery},
    {"reference_weeks", &NitrogenCoefficients::reference_weeks},
    {"om_cap", &NitrogenCoefficients::om_cap},
    {"annual_factor_low", &NitrogenCoefficients::annual_factor_low},
    {"annual_factor_high", &NitrogenCoefficients::annual_factor_high},
    {"q10", &NitrogenCoefficients::q10},
    {"first_order_rate", &NitrogenCoefficients::first_order_rate},
    {"moisture_watered", &NitrogenCoefficients::moisture_watered},
    {"moisture_rainfed", &NitrogenCoefficients::moisture_rainfed},
    {"gross_share", &NitrogenCoefficients::gross_share},
    {"tie_up_per_dm", &NitrogenCoefficients::tie_up_per_dm},
    {"rate_fast", &NitrogenCoefficients::rate_fast},
    {"rate_tie_up", &NitrogenCoefficients::rate_tie_up},
    {"rate_mulch", &NitrogenCoefficients::rate_mulch},
    {"rate_slow", &NitrogenCoefficients::rate_slow},
    {"slow_share", &NitrogenCoefficients::slow_share},
    {"surface_tie_up_share", &NitrogenCoefficients::surface_tie_up_share},
    {"ammonia_share", &NitrogenCoefficients::ammonia_share},
    {"nitrate_brake", &NitrogenCoefficients::nitrate_brake},
    {"plough_layer_share", &NitrogenCoefficients::plough_layer_share},
    {"profile_m", &NitrogenCoefficients::profile_m},
    {"gas_rate", &NitrogenCoefficients::gas_rate},
    {"deposition", &NitrogenCoefficients::deposition},
    {"pulled_root_share", &NitrogenCoefficients::pulled_root_share},
    {"winterkill_loss", &NitrogenCoefficients::winterkill_loss},
    {"least_n_pct", &NitrogenCoefficients::least_n_pct},
    {"opening_mineral_spring", &NitrogenCoefficients::opening_mineral_spring},
    {"opening_mineral_autumn", &NitrogenCoefficients::opening_mineral_autumn},
    {"opening_slow", &NitrogenCoefficients::opening_slow},
    {"ley_extra", &NitrogenCoefficients::ley_extra},
    {"ley_weeks", &NitrogenCoefficients::ley_weeks},
    {"seedling_reach", &NitrogenCoefficients::seedling_reach},
    {"seedling_weeks", &NitrogenCoefficients::seedling_weeks},
    {"least_demand_share", &NitrogenCoefficients::least_demand_share},
    {"yield_step", &NitrogenCoefficients::yield_step},
    {"vegetative_until", &NitrogenCoefficients::vegetative_until},
    {"mature_from", &NitrogenCoefficients::mature_from},
    {"quick_share", &NitrogenCoefficients::quick_share},
    {"mulch_weeks", &NitrogenCoefficients::mulch_weeks},
    {"surplus_kept", &NitrogenCoefficients::surplus_kept},
    {"wet_soil_gas", &NitrogenCoefficients::wet_soil_gas},
    {"winter_air_c", &NitrogenCoefficients::winter_air_c},
    {"winter_drainage_mm", &NitrogenCoefficients::winter_drainage_mm},
    {"test_tolerance", &NitrogenCoefficients::test_tolerance},
    {"winterkill_to_air", &NitrogenCoefficients::winterkill_to_air},
    {"manure_days_touching", &NitrogenCoefficients::manure_days_touching},
    {"manure_days_clear", &NitrogenCoefficients::manure_days_clear}};

const CoefficientKeys<DiseaseCoefficients> kDisease = {
    {"background_load", &DiseaseCoefficients::background_load},
    {"sighting_trace", &DiseaseCoefficients::sighting_trace},
    {"sighting_some", &DiseaseCoefficients::sighting_some},
    {"sighting_severe", &DiseaseCoefficients::sighting_severe},
    {"other_section_share", &DiseaseCoefficients::other_section_share},
    {"refuse_at", &DiseaseCoefficients::refuse_at},
    {"full_season_weeks", &DiseaseCoefficients::full_season_weeks},
    {"planned_quality", &DiseaseCoefficients::planned_quality},
    {"effective_quality", &DiseaseCoefficients::effective_quality},
    {"biofumigant_weeks", &DiseaseCoefficients::biofumigant_weeks},
    {"gain_partial", &DiseaseCoefficients::gain_partial},
    {"gain_carrier", &DiseaseCoefficients::gain_carrier},
    {"resistant_tolerance", &DiseaseCoefficients::resistant_tolerance},
    {"tolerant_tolerance", &DiseaseCoefficients::tolerant_tolerance},
    {"resistant_gain", &DiseaseCoefficients::resistant_gain},
    {"long_stand_weeks", &DiseaseCoefficients::long_stand_weeks},
    {"fresh_dry_share", &DiseaseCoefficients::fresh_dry_share},
    {"biomass_aim", &DiseaseCoefficients::biomass_aim},
    {"biomass_least", &DiseaseCoefficients::biomass_least},
    {"bud_from", &DiseaseCoefficients::bud_from},
    {"full_flower_from", &DiseaseCoefficients::full_flower_from},
    {"seed_from", &DiseaseCoefficients::seed_from},
    {"young_weeks", &DiseaseCoefficients::young_weeks},
    {"young_factor", &DiseaseCoefficients::young_factor},
    {"full_flower_factor", &DiseaseCoefficients::full_flower_factor},
    {"woody_factor", &DiseaseCoefficients::woody_factor},
    {"dhurrin_from_weeks", &DiseaseCoefficients::dhurrin_from_weeks},
    {"dhurrin_until_weeks", &DiseaseCoefficients::dhurrin_until_weeks},
    {"surface_factor", &DiseaseCoefficients::surface_factor},
    {"warm_soil_c", &DiseaseCoefficients::warm_soil_c},
    {"cool_soil_c", &DiseaseCoefficients::cool_soil_c},
    {"cool_soil_factor", &DiseaseCoefficients::cool_soil_factor},
    {"cold_soil_factor", &DiseaseCoefficients::cold_soil_factor}};

const CoefficientKeys<RuleCoefficients> kRules = {
    {"legume_within_weeks", &RuleCoefficients::legume_within_weeks},
    {"short_band_share", &RuleCoefficients::short_band_share},
    {"short_band", &RuleCoefficients::short_band},
    {"left_band_share", &RuleCoefficients::left_band_share},
    {"left_band", &RuleCoefficients::left_band},
    {"carbon_pct", &RuleCoefficients::carbon_pct},
    {"straw_cn", &RuleCoefficients::straw_cn},
    {"strawy_cn", &RuleCoefficients::strawy_cn},
    {"woody_cn", &RuleCoefficients::woody_cn},
    {"straw_weeks", &RuleCoefficients::straw_weeks},
    {"strawy_weeks", &RuleCoefficients::strawy_weeks},
    {"woody_weeks", &RuleCoefficients::woody_weeks},
    {"safe_seed_mg", &RuleCoefficients::safe_seed_mg},
    {"usual_residue", &RuleCoefficients::usual_residue},
    {"late_flower", &RuleCoefficients::late_flower},
    {"tarp_weeks", &RuleCoefficients::tarp_weeks},
    {"small_seed_mg", &RuleCoefficients::small_seed_mg},
    {"want_met", &RuleCoefficients::want_met}};

/// In the order of catalogue::Curve.
constexpr std::array<std::string_view, catalogue::kCurves> kCurveKeys = {
    "heading", "leafy", "root",   "bulb",  "fruiting", "maize",
    "tuber",   "grain", "legume", "cover", "perennial"};
constexpr std::array<std::string_view, 4> kReachKeys = {"cm_15", "cm_30", "cm_60", "cm_90"};

void read_reach(const RowFields& ledger, CatalogueBuild& build) {
  const Node* node = ledger.get("reach");
  if (node == nullptr) return;
  const RowFields table = open_table(*node, "reach", {kReachKeys.begin(), kReachKeys.end()}, build);
  for (std::size_t i = 0; i < kReachKeys.size(); ++i) {
    read_coefficient(table, kReachKeys[i], build.rows.coefficients.nitrogen.reach[i], build);
  }
}

void read_curves(const RowFields& ledger, CatalogueBuild& build) {
  const Node* node = ledger.get("uptake_curves");
  if (node == nullptr) return;
  const RowFields table =
      open_table(*node, "uptake_curves", {kCurveKeys.begin(), kCurveKeys.end()}, build);
  for (std::size_t i = 0; i < kCurveKeys.size(); ++i) {
    const Node* one = table.get(kCurveKeys[i]);
    if (one == nullptr) continue;
    const RowFields row(*one, kCurveKeys[i], {"steepness", "midpoint", "source"}, build.out);
    catalogue::UptakeCurve& curve = build.rows.coefficients.nitrogen.curves[i];
    row.number("steepness", curve.steepness, {0.5, 40});
    row.number("midpoint", curve.midpoint, {0.05, 0.95});
    row.text("source", curve.source);
  }
}

void read_causes(const RowFields& ledger, CatalogueBuild& build) {
  const Node* node = ledger.get("causes");
  if (node == nullptr) return;
  const auto& keys = catalogue::kCauseKeys;
  const RowFields table = open_table(*node, "causes", {keys.begin(), keys.end()}, build);
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const Node* one = table.get(keys[i]);
    if (one == nullptr) continue;
    const RowFields row(*one, keys[i], {"words", "low", "high", "source"}, build.out);
    catalogue::CauseText& cause = build.rows.coefficients.nitrogen.causes[i];
    row.text("words", cause.words);
    row.number("low", cause.low, {0, 1});
    row.number("high", cause.high, {1, 10});
    row.text("source", cause.source);
  }
}

}  // namespace

void read_ledger(const Node& node, CatalogueBuild& build) {
  const RowFields ledger(node, "ledger",
                         {"nitrogen", "disease", "rules", "reach", "uptake_curves", "causes"},
                         build.out);
  read_reach(ledger, build);
  read_curves(ledger, build);
  read_causes(ledger, build);
  read_group(ledger, "nitrogen", kNitrogen, build.rows.coefficients.nitrogen, build);
  read_group(ledger, "disease", kDisease, build.rows.coefficients.disease, build);
  read_group(ledger, "rules", kRules, build.rows.coefficients.rules, build);
}

}  // namespace aftercrop::load
