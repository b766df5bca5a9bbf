#include <cmath>
#include <vector>

#include "load/catalogue_tables.h"
#include "load/moments.h"

namespace aftercrop::load {
namespace {

using catalogue::Crop;
using catalogue::Hardiness;
using catalogue::HarvestMode;
using catalogue::LifeCycle;
using catalogue::SeedClass;
using catalogue::SowingClass;
using catalogue::Start;
using catalogue::Work;
using catalogue::YieldUnit;
using diagnostic::Diagnostics;

template <class Value>
using Words = std::vector<std::pair<std::string_view, Value>>;

const Words<Start> kStarts = {
    {"sow", Start::Sow},   {"transplant", Start::Transplant}, {"either", Start::Either},
    {"set", Start::Set},   {"clove", Start::Clove},           {"tuber", Start::Tuber},
    {"slip", Start::Slip}, {"crown", Start::Crown},           {"root-cutting", Start::RootCutting}};
const Words<SeedClass> kSeedClasses = {{"small", SeedClass::Small},
                                       {"medium", SeedClass::Medium},
                                       {"large", SeedClass::Large},
                                       {"vegetative", SeedClass::Vegetative}};
const Words<bool> kDaysFrom = {{"sowing", false}, {"transplanting", true}};
const Words<HarvestMode> kHarvestModes = {{"single", HarvestMode::Single},
                                          {"repeated", HarvestMode::Repeated},
                                          {"cut-again", HarvestMode::CutAgain}};
const Words<YieldUnit> kYieldUnits = {
    {"kg", YieldUnit::Kilograms}, {"stems", YieldUnit::Stems}, {"none", YieldUnit::None}};
const Words<Hardiness> kHardiness = {{"very-hardy", Hardiness::VeryHardy},
                                     {"hardy", Hardiness::Hardy},
                                     {"half-hardy", Hardiness::HalfHardy},
                                     {"tender", Hardiness::Tender},
                                     {"very-tender", Hardiness::VeryTender}};
const Words<SowingClass> kSowingClasses = {{"hardy", SowingClass::Hardy},
                                           {"half-hardy", SowingClass::HalfHardy},
                                           {"tender", SowingClass::Tender},
                                           {"very-tender", SowingClass::VeryTender}};
const Words<LifeCycle> kLifeCycles = {{"annual", LifeCycle::Annual},
                                      {"biennial", LifeCycle::Biennial},
                                      {"perennial", LifeCycle::Perennial}};
const Words<Work> kWork = {{"low", Work::Low}, {"medium", Work::Medium}, {"high", Work::High}};

void read_start(const RowFields& row, Crop& crop, Diagnostics& out) {
  if (const Node* node = row.get("start")) {
    const RowFields fields(*node, "start", {"how", "plug_weeks"}, out);
    fields.choice("how", crop.start, kStarts);
    fields.pair("plug_weeks", crop.plug_weeks.low, crop.plug_weeks.high, {0, 30});
    crop.plug_weeks.typical = (crop.plug_weeks.low + crop.plug_weeks.high) / 2.0;
  }
  if (const Node* node = row.get("spacing")) {
    const RowFields fields(*node, "spacing", {"in_row_cm", "between_rows_cm", "depth_cm"}, out);
    fields.number("in_row_cm", crop.in_row_cm, {0, 500});
    fields.number("between_rows_cm", crop.between_row_cm, {0, 500});
    fields.number("depth_cm", crop.depth_cm, {0, 50});
  }
  if (const Node* node = row.get("seed")) {
    const RowFields fields(*node, "seed", {"class", "mass_mg"}, out);
    fields.choice("class", crop.seed_class, kSeedClasses);
    if (crop.seed_class == SeedClass::Vegetative) crop.seed_mass_mg = 0.0;
    fields.number("mass_mg", crop.seed_mass_mg, {0.01, 5000});
  }
}

void read_days(const RowFields& row, Crop& crop, Diagnostics& out) {
  if (const Node* node = row.get("days")) {
    const RowFields fields(*node, "days", {"from", "least", "most"}, out);
    fields.choice("from", crop.days_from_transplanting, kDaysFrom);
    fields.number("least", crop.days_min, {10, 1500});
    fields.number("most", crop.days_max, {10, 1500});
    check_order(crop.days_min, crop.days_max, "days", node->source, out);
  }
  if (const Node* node = row.get("harvest")) {
    const RowFields fields(*node, "harvest", {"mode", "weeks"}, out);
    fields.choice("mode", crop.harvest_mode, kHarvestModes);
    double least = crop.harvest_weeks_min;
    double most = crop.harvest_weeks_max;
    fields.pair("weeks", least, most, {0, 52});
    crop.harvest_weeks_min = static_cast<int>(std::lround(least));
    crop.harvest_weeks_max = static_cast<int>(std::lround(most));
  }
}

void read_yield(const RowFields& row, Crop& crop, Diagnostics& out) {
  if (const Node* node = row.get("yield")) {
    const RowFields fields(*node, "yield", {"unit", "per_m2"}, out);
    fields.choice("unit", crop.yield_unit, kYieldUnits);
    if (crop.yield_unit == YieldUnit::None) crop.yield_per_m2 = {};
    const bool stems = crop.yield_unit == YieldUnit::Stems;
    fields.range("per_m2", crop.yield_per_m2, {0, stems ? 1000.0 : 30.0});
  }
  row.number("smallest_stand_m2", crop.smallest_stand_m2, {0.05, 100});
}

void read_setting(const Node& node, Crop& crop, Diagnostics& out) {
  const RowFields fields(node, "setting", {"weeks", "night_c", "day_c"}, out);
  fields.need({"weeks"});
  catalogue::Setting limits;
  fields.whole("weeks", limits.weeks, {1, 20});
  fields.number("night_c", limits.night_c, {5, 40});
  fields.number("day_c", limits.day_c, {15, 50});
  crop.setting = limits;
}

void read_optional(const RowFields& fields, std::string_view key, Limits limits,
                   std::optional<double>& into) {
  if (fields.get(key) == nullptr) return;
  double value = 0.0;
  fields.number(key, value, limits);
  into = value;
}

void read_hardiness(const RowFields& row, Crop& crop, Diagnostics& out) {
  if (const Node* node = row.get("hardiness")) {
    const RowFields fields(*node, "hardiness", {"class", "sowing_class", "kill_c"}, out);
    fields.choice("class", crop.hardiness, kHardiness);
    fields.choice("sowing_class", crop.sowing_class, kSowingClasses);
    fields.number("kill_c", crop.kill_c, {-60, 10});
  }
  if (const Node* node = row.get("temperature")) {
    const RowFields fields(
        *node, "temperature",
        {"base_c", "cap_c", "soil_min_c", "soil_max_c", "spring_min_c", "growth_c", "setting"},
        out);
    fields.number("base_c", crop.base_c, {-2, 20});
    fields.number("cap_c", crop.cap_c, {15, 45});
    fields.number("soil_min_c", crop.soil_min_c, {0, 25});
    read_optional(fields, "spring_min_c", {0, 25}, crop.spring_min_c);
    read_optional(fields, "soil_max_c", {15, 45}, crop.soil_max_c);
    fields.pair("growth_c", crop.growth_min_c, crop.growth_max_c, {0, 45});
    if (const Node* setting = fields.get("setting")) read_setting(*setting, crop, out);
  }
  if (const Node* node = row.get("life")) {
    const RowFields fields(*node, "life", {"cycle", "years", "overwinters"}, out);
    fields.choice("cycle", crop.life_cycle, kLifeCycles);
    fields.whole("years", crop.productive_years, {1, 40});
    fields.yes_no("overwinters", crop.overwinters);
  }
}

/// One pair of days, or a list of pairs.
void read_local_calendar(const RowFields& row, Crop& crop, Diagnostics& out) {
  const Node* node = row.get("calendar");
  if (node == nullptr) return;
  crop.local_calendar.clear();
  const auto list = list_of(*node);
  const bool one_pair = list.size() == 2 && list[0]->is_scalar() && list[1]->is_scalar();
  for (const Node* pair : one_pair ? std::vector<const Node*>{node} : list) {
    const auto days = list_of(*pair);
    if (days.size() != 2) {
      out.error("wrong-shape", "dates of a local calendar are a first and a last day", pair->source,
                "write `calendar: [[03-15, 05-15], [08-01, 08-31]]`, month-day");
      continue;
    }
    const auto first = read_month_day(*days[0], "the first day of a local calendar", out);
    const auto last = read_month_day(*days[1], "the last day of a local calendar", out);
    if (first && last) crop.local_calendar.push_back({*first, *last});
  }
}

}  // namespace

void read_crop_growing(const RowFields& row, Crop& crop, Diagnostics& out) {
  read_start(row, crop, out);
  read_days(row, crop, out);
  read_yield(row, crop, out);
  read_hardiness(row, crop, out);
  read_local_calendar(row, crop, out);
  row.number("root_depth_cm", crop.root_depth_cm, {5, 400});
  if (row.get("succession_weeks") != nullptr) {
    int weeks = crop.succession_weeks.value_or(0);
    row.whole("succession_weeks", weeks, {1, 26});
    crop.succession_weeks = weeks;
  }
  row.text("edible_part", crop.edible_part);
  row.yes_no("touches_soil", crop.touches_soil);
  row.choice("work", crop.work, kWork);
  row.text("support", crop.support);
}

}  // namespace aftercrop::load
