#include "load/catalogue_coefficient.h"
#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

const CoefficientKeys<catalogue::ShelterCoefficients> kShelter = {
    {"fleece_noon_c", &catalogue::ShelterCoefficients::fleece_noon_c},
    {"fleece_night_c", &catalogue::ShelterCoefficients::fleece_night_c},
    {"tunnel_noon_c", &catalogue::ShelterCoefficients::tunnel_noon_c},
    {"tunnel_vented_noon_c", &catalogue::ShelterCoefficients::tunnel_vented_noon_c},
    {"tunnel_night_c", &catalogue::ShelterCoefficients::tunnel_night_c},
    {"vent_from_c", &catalogue::ShelterCoefficients::vent_from_c},
    {"vented_at_c", &catalogue::ShelterCoefficients::vented_at_c},
    {"tunnel_evaporation", &catalogue::ShelterCoefficients::tunnel_evaporation}};
const CoefficientKeys<catalogue::GroundCoefficients> kGround = {
    {"smoothing_shallow", &catalogue::GroundCoefficients::smoothing_shallow},
    {"smoothing_ten_cm", &catalogue::GroundCoefficients::smoothing_ten_cm},
    {"frozen_share", &catalogue::GroundCoefficients::frozen_share}};
const CoefficientKeys<catalogue::WaterCoefficients> kWater = {
    {"snow_below_c", &catalogue::WaterCoefficients::snow_below_c},
    {"rain_above_c", &catalogue::WaterCoefficients::rain_above_c},
    {"melt_mm", &catalogue::WaterCoefficients::melt_mm},
    {"depletion", &catalogue::WaterCoefficients::depletion},
    {"texture_om_pct", &catalogue::WaterCoefficients::texture_om_pct},
    {"water_per_om", &catalogue::WaterCoefficients::water_per_om},
    {"bare_wet", &catalogue::WaterCoefficients::bare_wet},
    {"bare_dry", &catalogue::WaterCoefficients::bare_dry},
    {"under_mulch", &catalogue::WaterCoefficients::under_mulch},
    {"under_plants", &catalogue::WaterCoefficients::under_plants}};
const CoefficientKeys<catalogue::FrostCoefficients> kFrost = {
    {"curve_at_frost_c", &catalogue::FrostCoefficients::curve_at_frost_c},
    {"coldest_night_sd", &catalogue::FrostCoefficients::coldest_night_sd},
    {"winter_spread_c", &catalogue::FrostCoefficients::winter_spread_c},
    {"greatest_shift_c", &catalogue::FrostCoefficients::greatest_shift_c},
    {"date_scale_days", &catalogue::FrostCoefficients::date_scale_days},
    {"latitude_scale", &catalogue::FrostCoefficients::latitude_scale},
    {"usual_latitude", &catalogue::FrostCoefficients::usual_latitude}};
const CoefficientKeys<catalogue::YearCoefficients> kYear = {
    {"short_day_h", &catalogue::YearCoefficients::short_day_h},
    {"short_day_share", &catalogue::YearCoefficients::short_day_share},
    {"autumn_mean_c", &catalogue::YearCoefficients::autumn_mean_c},
    {"even_year_c", &catalogue::YearCoefficients::even_year_c},
    {"warm_winter_c", &catalogue::YearCoefficients::warm_winter_c}};
const CoefficientKeys<catalogue::StartCoefficients> kStart = {
    {"over_soil_minimum_c", &catalogue::StartCoefficients::over_soil_minimum_c},
    {"under_warmest_soil_c", &catalogue::StartCoefficients::under_warmest_soil_c},
    {"plants_bear_c", &catalogue::StartCoefficients::plants_bear_c},
    {"air_over_base_c", &catalogue::StartCoefficients::air_over_base_c},
    {"emergence_days", &catalogue::StartCoefficients::emergence_days},
    {"emergence_days_most", &catalogue::StartCoefficients::emergence_days_most},
    {"stops_below_c", &catalogue::StartCoefficients::stops_below_c},
    {"heat_slack_c", &catalogue::StartCoefficients::heat_slack_c},
    {"cold_slack_c", &catalogue::StartCoefficients::cold_slack_c},
    {"cloves_soil_c", &catalogue::StartCoefficients::cloves_soil_c},
    {"chill_c", &catalogue::StartCoefficients::chill_c},
    {"chill_weeks", &catalogue::StartCoefficients::chill_weeks},
    {"cloves_before_frozen_weeks", &catalogue::StartCoefficients::cloves_before_frozen_weeks}};
const CoefficientKeys<catalogue::MaturityCoefficients> kMaturity = {
    {"plant_ahead_days", &catalogue::MaturityCoefficients::plant_ahead_days},
    {"autumn_from_h", &catalogue::MaturityCoefficients::autumn_from_h},
    {"autumn_to_h", &catalogue::MaturityCoefficients::autumn_to_h},
    {"autumn_days", &catalogue::MaturityCoefficients::autumn_days},
    {"rising_share", &catalogue::MaturityCoefficients::rising_share},
    {"slow_summer", &catalogue::MaturityCoefficients::slow_summer},
    {"over_winter_days", &catalogue::MaturityCoefficients::over_winter_days},
    {"spring_h", &catalogue::MaturityCoefficients::spring_h},
    {"garlic_degree_days", &catalogue::MaturityCoefficients::garlic_degree_days},
    {"swelling_weeks", &catalogue::MaturityCoefficients::swelling_weeks},
    {"regrowth_c", &catalogue::MaturityCoefficients::regrowth_c},
    {"regrowth_least_c", &catalogue::MaturityCoefficients::regrowth_least_c}};
const CoefficientKeys<catalogue::WinterCoefficients> kWinter = {
    {"death_risk", &catalogue::WinterCoefficients::death_risk},
    {"harvest_risk", &catalogue::WinterCoefficients::harvest_risk},
    {"rest_c", &catalogue::WinterCoefficients::rest_c},
    {"no_rest_c", &catalogue::WinterCoefficients::no_rest_c},
    {"established", &catalogue::WinterCoefficients::established},
    {"onion_degree_days", &catalogue::WinterCoefficients::onion_degree_days},
    {"early_days", &catalogue::WinterCoefficients::early_days},
    {"late_days", &catalogue::WinterCoefficients::late_days},
    {"tender_weeks", &catalogue::WinterCoefficients::tender_weeks},
    {"short_harvest_weeks", &catalogue::WinterCoefficients::short_harvest_weeks},
    {"rooting_weeks", &catalogue::WinterCoefficients::rooting_weeks}};
const CoefficientKeys<catalogue::CoverGrowthCoefficients> kCovers = {
    {"full_growth_c", &catalogue::CoverGrowthCoefficients::full_growth_c},
    {"flower_factor", &catalogue::CoverGrowthCoefficients::flower_factor},
    {"seed_progress", &catalogue::CoverGrowthCoefficients::seed_progress},
    {"dies_when_cut", &catalogue::CoverGrowthCoefficients::dies_when_cut},
    {"surely_dead", &catalogue::CoverGrowthCoefficients::surely_dead},
    {"comes_up_days", &catalogue::CoverGrowthCoefficients::comes_up_days},
    {"tender_risk", &catalogue::CoverGrowthCoefficients::tender_risk}};
const CoefficientKeys<catalogue::CropLimitCoefficients> kLimits = {
    {"long_day_latitude", &catalogue::CropLimitCoefficients::long_day_latitude},
    {"short_day_latitude", &catalogue::CropLimitCoefficients::short_day_latitude},
    {"long_day_h", &catalogue::CropLimitCoefficients::long_day_h},
    {"middle_day_h", &catalogue::CropLimitCoefficients::middle_day_h},
    {"equator_day_h", &catalogue::CropLimitCoefficients::equator_day_h},
    {"bulbing_margin_h", &catalogue::CropLimitCoefficients::bulbing_margin_h},
    {"leaf_weeks_after", &catalogue::CropLimitCoefficients::leaf_weeks_after},
    {"spinach_h", &catalogue::CropLimitCoefficients::spinach_h},
    {"spinach_weeks_rising", &catalogue::CropLimitCoefficients::spinach_weeks_rising},
    {"spinach_weeks_falling", &catalogue::CropLimitCoefficients::spinach_weeks_falling},
    {"lettuce_heat_c", &catalogue::CropLimitCoefficients::lettuce_heat_c}};

constexpr Limits kPlain{-1e4, 1e4};

/// A table of plain numbers, an array a key.
template <std::size_t N>
void read_arrays(const RowFields& table,
                 const std::vector<std::pair<std::string_view, std::array<double, N>*>>& arrays) {
  for (const auto& [key, into] : arrays) table.numbers(key, *into, kPlain);
}

void read_frost_spread(const Node& node, catalogue::FrostSpread& spread, CatalogueBuild& build) {
  const RowFields table = open_table(
      node, "frost_spread",
      {"last_from_midwinter", "last_sd_days", "first_from_midwinter", "first_sd_days", "source"},
      build);
  read_arrays<6>(table, {{"last_from_midwinter", &spread.last_from_midwinter},
                         {"last_sd_days", &spread.last_sd_days},
                         {"first_from_midwinter", &spread.first_from_midwinter},
                         {"first_sd_days", &spread.first_sd_days}});
  table.text("source", spread.source);
}

void read_earliest(const Node& node, catalogue::EarliestStarts& starts, CatalogueBuild& build) {
  const RowFields table = open_table(
      node, "earliest", {"days_from_last_frost", "hurts_seedling_c", "risk", "source"}, build);
  read_arrays<4>(table, {{"days_from_last_frost", &starts.days_from_last_frost},
                         {"hurts_seedling_c", &starts.hurts_seedling_c},
                         {"risk", &starts.risk}});
  table.text("source", starts.source);
}

void read_catalogue_days(const Node& node, catalogue::CatalogueDays& days, CatalogueBuild& build) {
  const RowFields table =
      open_table(node, "catalogue_days",
                 {"cool_base_c", "cool_per_day", "warm_base_c", "warm_per_day", "source"}, build);
  read_arrays<3>(table, {{"cool_base_c", &days.cool_base_c}, {"cool_per_day", &days.cool_per_day}});
  read_arrays<5>(table, {{"warm_base_c", &days.warm_base_c}, {"warm_per_day", &days.warm_per_day}});
  table.text("source", days.source);
}

void read_emergence(const Node& node, catalogue::Emergence& emergence, CatalogueBuild& build) {
  const RowFields table = open_table(node, "emergence", {"days", "source"}, build);
  table.text("source", emergence.source);
  const Node* days = table.get("days");
  if (days == nullptr) return;
  std::vector<std::string_view> crops;
  for (const std::string& key : days->keys) crops.emplace_back(key);
  const RowFields rows(*days, "days", crops, build.out);
  for (const std::string_view crop : crops) {
    catalogue::EmergenceRow row;
    row.crop = crop;
    rows.numbers(crop, row.days, {-1, 400});
    std::erase_if(emergence.rows,
                  [&](const catalogue::EmergenceRow& one) { return one.crop == crop; });
    emergence.rows.push_back(std::move(row));
  }
}

}  // namespace

void read_site_coefficients(const Node& node, CatalogueBuild& build) {
  const RowFields site(
      node, "site",
      {"shelter", "ground", "water", "frost", "year", "start", "maturity", "winter", "covers",
       "limits", "frost_spread", "earliest", "catalogue_days", "emergence"},
      build.out);
  catalogue::SiteCoefficients& into = build.rows.coefficients.site;
  read_group(site, "shelter", kShelter, into.shelter, build);
  read_group(site, "ground", kGround, into.ground, build);
  read_group(site, "water", kWater, into.water, build);
  read_group(site, "frost", kFrost, into.frost, build);
  read_group(site, "year", kYear, into.year, build);
  read_group(site, "start", kStart, into.start, build);
  read_group(site, "maturity", kMaturity, into.maturity, build);
  read_group(site, "winter", kWinter, into.winter, build);
  read_group(site, "covers", kCovers, into.covers, build);
  read_group(site, "limits", kLimits, into.limits, build);
  if (const Node* table = site.get("frost_spread"))
    read_frost_spread(*table, into.frost_spread, build);
  if (const Node* table = site.get("earliest")) read_earliest(*table, into.earliest, build);
  if (const Node* table = site.get("catalogue_days"))
    read_catalogue_days(*table, into.catalogue_days, build);
  if (const Node* table = site.get("emergence")) read_emergence(*table, into.emergence, build);
}

}  // namespace aftercrop::load
