#include <fmt/format.h>

#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::Coefficient;
using catalogue::DiseaseCoefficients;
using catalogue::NitrogenCoefficients;

const std::vector<std::pair<std::string_view, Coefficient NitrogenCoefficients::*>> kNitrogen = {
    {"supply_per_om", &NitrogenCoefficients::supply_per_om},
    {"reference_weeks", &NitrogenCoefficients::reference_weeks},
    {"om_cap", &NitrogenCoefficients::om_cap},
    {"annual_factor_low", &NitrogenCoefficients::annual_factor_low},
    {"annual_factor_high", &NitrogenCoefficients::annual_factor_high},
    {"q10", &NitrogenCoefficients::q10},
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
    {"opening_slow", &NitrogenCoefficients::opening_slow}};

const std::vector<std::pair<std::string_view, Coefficient DiseaseCoefficients::*>> kDisease = {
    {"background_load", &DiseaseCoefficients::background_load},
    {"sighting_trace", &DiseaseCoefficients::sighting_trace},
    {"sighting_some", &DiseaseCoefficients::sighting_some},
    {"sighting_severe", &DiseaseCoefficients::sighting_severe},
    {"other_section_share", &DiseaseCoefficients::other_section_share},
    {"refuse_at", &DiseaseCoefficients::refuse_at},
    {"full_season_weeks", &DiseaseCoefficients::full_season_weeks},
    {"planned_quality", &DiseaseCoefficients::planned_quality},
    {"effective_quality", &DiseaseCoefficients::effective_quality},
    {"biofumigant_weeks", &DiseaseCoefficients::biofumigant_weeks}};

constexpr Limits kAny{-1e6, 1e6};

void read_coefficient(const RowFields& table, std::string_view key, Coefficient& into,
                      CatalogueBuild& build) {
  const Node* node = table.get(key);
  if (node == nullptr) return;
  const RowFields row(*node, key, {"value", "low", "high", "unit", "source"}, build.out);
  row.need({"value"});
  row.number("value", into.value, kAny);
  if (!build.over_base) into.low = into.high = into.value;
  row.number("low", into.low, kAny);
  row.number("high", into.high, kAny);
  row.text("unit", into.unit);
  row.text("source", into.source);
  check_order(into.low, into.high, key, node->source, build.out);
}

template <class Group>
void read_group(const RowFields& ledger, std::string_view name,
                const std::vector<std::pair<std::string_view, Coefficient Group::*>>& members,
                Group& into, CatalogueBuild& build) {
  const Node* node = ledger.get(name);
  if (node == nullptr) return;
  std::vector<std::string_view> keys;
  keys.reserve(members.size());
  for (const auto& [key, member] : members) keys.push_back(key);
  const RowFields table(*node, name, keys, build.out);
  if (!build.over_base) table.need(keys);
  for (const auto& [key, member] : members) {
    read_coefficient(table, key, into.*member, build);
  }
}

}  // namespace

void read_ledger(const Node& node, CatalogueBuild& build) {
  const RowFields ledger(node, "ledger", {"nitrogen", "disease"}, build.out);
  read_group(ledger, "nitrogen", kNitrogen, build.rows.coefficients.nitrogen, build);
  read_group(ledger, "disease", kDisease, build.rows.coefficients.disease, build);
}

}  // namespace aftercrop::load
