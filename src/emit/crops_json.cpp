#include <fmt/format.h>

#include <array>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/emit/json.h"
#include "emit/json_value.h"

namespace aftercrop::emit {
namespace {

using catalogue::Crop;

template <std::size_t N, class Choice>
Json word(const std::array<const char*, N>& words, Choice choice) {
  return Json(words[static_cast<std::size_t>(choice)]);
}

constexpr std::array<const char*, 9> kStarts = {
    "sow", "transplant", "either", "set", "clove", "tuber", "slip", "crown", "root-cutting"};
constexpr std::array<const char*, 4> kSeedClasses = {"small", "medium", "large", "vegetative"};
constexpr std::array<const char*, 3> kHarvestModes = {"single", "repeated", "cut-again"};
constexpr std::array<const char*, 5> kHardiness = {"very-hardy", "hardy", "half-hardy", "tender",
                                                   "very-tender"};
constexpr std::array<const char*, 4> kSowingClasses = {"hardy", "half-hardy", "tender",
                                                       "very-tender"};
constexpr std::array<const char*, 4> kFeeders = {"light", "medium", "heavy", "legume"};
constexpr std::array<const char*, 3> kYieldUnits = {"kg", "stems", "none"};
constexpr std::array<const char*, 3> kCycles = {"annual", "biennial", "perennial"};
constexpr std::array<const char*, 3> kWork = {"low", "medium", "high"};
constexpr std::array<const char*, 4> kRegrowth = {"none", "low", "medium", "high"};
constexpr std::array<const char*, 3> kFumigants = {"none", "glucosinolate", "dhurrin"};

Json range(const catalogue::Range& value) {
  Json out = Json::object();
  out["low"] = number(value.low);
  out["typical"] = number(value.typical);
  out["high"] = number(value.high);
  return out;
}

Json texts(const std::vector<std::string>& list) {
  Json out = Json::array();
  for (const std::string& one : list) out.push_back(text_value(one));
  return out;
}

Json nitrogen_part(const catalogue::NitrogenFigures& figures) {
  Json out = Json::object();
  out["yield_t_per_ha"] = number(figures.yield_t_ha);
  out["uptake_kg_per_ha"] = number(figures.uptake_kg_ha);
  out["harvest_kg_per_t"] = number(figures.harvest_kg_per_t);
  out["residue_n_pct"] = number(figures.residue_n_pct);
  out["depth_cm"] = number(figures.depth_cm);
  out["step_kg_per_ha"] = number(figures.step_kg_ha);
  out["residual_kg_per_ha"] = number(figures.residual_kg_ha);
  out["below_ground_share"] = number(figures.below_ground_share);
  out["root_n_pct"] = number(figures.root_n_pct);
  out["fixation_share"] = number(figures.fixation_share);
  out["fixation_ceiling"] = number(figures.fixation_ceiling);
  return out;
}

Json cover_part(const catalogue::CoverFigures& cover) {
  Json out = Json::object();
  out["seed_g_per_m2"] = number(cover.seed_g_m2);
  out["weeks_to_stand"] = cover.weeks_to_stand;
  out["biomass_t_per_ha"] = range(cover.biomass_t_ha);
  out["n_pct"] =
      Json::array({number(cover.n_pct[0]), number(cover.n_pct[1]), number(cover.n_pct[2])});
  out["windows"] = Json::array();
  for (const catalogue::CoverWindow& window : cover.windows) {
    const std::array<const char*, 2> frosts = {"last-frost", "first-frost"};
    Json row = Json::object();
    row["from"] = word(frosts, window.from_anchor);
    row["from_weeks"] = window.from_weeks;
    row["to"] = word(frosts, window.to_anchor);
    row["to_weeks"] = window.to_weeks;
    out["windows"].push_back(row);
  }
  out["endings"] = Json::array();
  for (const catalogue::Ending ending : cover.endings) {
    out["endings"].push_back(std::string(catalogue::name(ending)));
  }
  out["root_n_share"] = number(cover.root_n_share);
  out["wait_weeks"] = Json::array({cover.wait_weeks[0], cover.wait_weeks[1], cover.wait_weeks[2]});
  out["regrowth"] = word(kRegrowth, cover.regrowth);
  out["fumigant"] = word(kFumigants, cover.fumigant);
  out["weed_suppression"] = cover.weed_suppression;
  return out;
}

void put_growing(Json& row, const Crop& crop) {
  row["start"] = word(kStarts, crop.start);
  row["plug_weeks"] = range(crop.plug_weeks);
  row["in_row_cm"] = number(crop.in_row_cm);
  row["between_row_cm"] = number(crop.between_row_cm);
  row["depth_cm"] = number(crop.depth_cm);
  row["seed_class"] = word(kSeedClasses, crop.seed_class);
  row["seed_mass_mg"] = number(crop.seed_mass_mg);
  row["days"] = Json::array({number(crop.days_min), number(crop.days_max)});
  row["days_from_transplanting"] = crop.days_from_transplanting;
  row["harvest_mode"] = word(kHarvestModes, crop.harvest_mode);
  row["harvest_weeks"] = Json::array({crop.harvest_weeks_min, crop.harvest_weeks_max});
  row["yield_unit"] = word(kYieldUnits, crop.yield_unit);
  row["yield_per_m2"] = range(crop.yield_per_m2);
  row["smallest_stand_m2"] = number(crop.smallest_stand_m2);
}

/// Weeks before harvest and the heat above which it hardly sets; null = no heat is told.
Json setting_part(const Crop& crop) {
  if (!crop.setting) return {};
  const auto limit = [](double celsius) {
    return celsius < catalogue::Setting::kNoLimit ? number(celsius) : Json();
  };
  Json out = Json::object();
  out["weeks"] = crop.setting->weeks;
  out["night_c"] = limit(crop.setting->night_c);
  out["day_c"] = limit(crop.setting->day_c);
  return out;
}

std::string day_text(const catalogue::MonthDay& day) {
  return fmt::format("{:02}-{:02}", day.month, day.day);
}

void put_climate(Json& row, const Crop& crop) {
  row["hardiness"] = word(kHardiness, crop.hardiness);
  row["kill_c"] = number(crop.kill_c);
  row["sowing_class"] = word(kSowingClasses, crop.sowing_class);
  row["base_c"] = number(crop.base_c);
  row["cap_c"] = number(crop.cap_c);
  row["soil_min_c"] = number(crop.soil_min_c);
  row["soil_max_c"] = crop.soil_max_c ? number(*crop.soil_max_c) : Json();
  row["spring_min_c"] = crop.spring_min_c ? number(*crop.spring_min_c) : Json();
  row["growth_c"] = Json::array({number(crop.growth_min_c), number(crop.growth_max_c)});
  row["setting"] = setting_part(crop);
  row["calendar"] = Json::array();
  for (const catalogue::StartDates& dates : crop.local_calendar) {
    row["calendar"].push_back(Json::array({day_text(dates.first), day_text(dates.last)}));
  }
  row["overwinters"] = crop.overwinters;
  row["life_cycle"] = word(kCycles, crop.life_cycle);
  row["productive_years"] = crop.productive_years;
  row["root_depth_cm"] = number(crop.root_depth_cm);
  row["succession_weeks"] = crop.succession_weeks ? Json(*crop.succession_weeks) : Json();
  row["edible_part"] = text_or_null(crop.edible_part);
  row["touches_soil"] = crop.touches_soil;
  row["work"] = word(kWork, crop.work);
  row["support"] = text_or_null(crop.support);
}

Json week_or_null(const std::optional<calendar::Week>& week) {
  return week ? Json(calendar::text(*week)) : Json();
}

Json weeks_part(const std::vector<calendar::WeekSpan>& spans) {
  Json out = Json::array();
  for (const calendar::WeekSpan& span : spans) {
    Json row = Json::object();
    row["from"] = calendar::text(span.first);
    row["to"] = calendar::text(span.past - calendar::Weeks(1));
    out.push_back(row);
  }
  return out;
}

Json asked_part(const std::string& climate, const climate::Outlook& outlook) {
  Json out = Json::object();
  out["week"] = calendar::text(outlook.start);
  out["climate"] = text_value(climate);
  out["open"] = outlook.open;
  out["harvest_from"] = week_or_null(outlook.harvest);
  out["early_cultivar"] = outlook.early;
  out["useful_from"] = week_or_null(outlook.useful);
  out["killed_by_frost"] = week_or_null(outlook.killed);
  out["open_weeks"] = weeks_part(outlook.open_weeks);
  return out;
}

Json seasons_part(const SeasonsHere& here) {
  static constexpr std::array kShelters = {"open", "fleece", "tunnel"};
  Json out = Json::object();
  out["climate"] = text_value(here.climate);
  out["under"] = Json::array();
  for (const SeasonsUnder& under : here.under) {
    Json row = Json::object();
    row["shelter"] = word(kShelters, under.shelter);
    row["seasons"] = Json::array();
    for (const climate::Season& season : under.seasons) {
      Json one = Json::object();
      one["from"] = calendar::text(season.starts.first);
      one["to"] = calendar::text(season.starts.past - calendar::Weeks(1));
      one["first_harvest"] = week_or_null(season.first_harvest);
      one["last_harvest"] = week_or_null(season.last_harvest);
      one["early_cultivar"] = weeks_part(season.early);
      row["seasons"].push_back(one);
    }
    out["under"].push_back(row);
  }
  return out;
}

Json crop_row(const Crop& crop, const catalogue::Catalogue& catalogue) {
  Json row = Json::object();
  row["id"] = text_value(crop.id);
  row["name"] = text_value(crop.name);
  row["botanical_name"] = text_value(crop.botanical_name);
  row["also"] = texts(crop.also);
  row["family"] = crop.family.known() ? text_value(catalogue.family(crop.family).id) : Json();
  row["group"] = Json();
  row["break"] = Json();
  if (crop.group.known()) {
    const catalogue::BreakGroup& group = catalogue.group(crop.group);
    const catalogue::Break& seasons = crop.is_cover() ? group.cover : group.crop;
    row["group"] = text_value(group.id);
    row["break"] = Json::object();
    row["break"]["min"] = seasons.min;
    row["break"]["rec"] = seasons.rec;
    row["break"]["range_seen"] = text_value(group.range_seen);
    row["break"]["sources"] = sources(group.sources);
  }
  row["kind"] = text_value(crop.kind);
  row["form_of"] = crop.form_of.known() ? text_value(catalogue.crop(crop.form_of).id) : Json();
  row["mixture"] = Json::array();
  for (const catalogue::MixturePart& part : crop.mixture) {
    Json share = Json::object();
    share["crop"] = text_value(catalogue.crop(part.crop).id);
    share["share"] = number(part.share);
    row["mixture"].push_back(share);
  }
  put_growing(row, crop);
  put_climate(row, crop);
  row["feeder"] = word(kFeeders, crop.feeder);
  row["legume"] = crop.legume;
  row["nitrogen"] = nitrogen_part(crop.nitrogen);
  row["cover"] = crop.cover ? cover_part(*crop.cover) : Json();
  row["cautions"] = Json::array();
  for (const std::string& id : crop.cautions) {
    const catalogue::Caution* caution = catalogue.find_caution(id);
    Json entry = Json::object();
    entry["id"] = text_value(id);
    entry["text"] = caution != nullptr ? text_value(caution->text) : Json();
    row["cautions"].push_back(entry);
  }
  row["sources"] = sources(crop.sources);
  return row;
}

}  // namespace

std::string crops_json(const catalogue::Catalogue& catalogue,
                       const std::vector<catalogue::CropId>& crops, const AskedPlace& asked) {
  Json out = Json::object();
  out["crops"] = Json::array();
  for (std::size_t i = 0; i < crops.size(); ++i) {
    Json row = crop_row(catalogue.crop(crops[i]), catalogue);
    if (!asked.outlooks.empty()) row["asked"] = asked_part(asked.climate, asked.outlooks[i]);
    if (asked.seasons) row["here"] = seasons_part(*asked.seasons);
    out["crops"].push_back(std::move(row));
  }
  return document(out);
}

std::string summary_json(const catalogue::Catalogue& catalogue) {
  Json out = Json::object();
  out["tables"] = Json::array();
  for (const catalogue::Tally& one : catalogue::tally(catalogue)) {
    Json row = Json::object();
    row["table"] = one.table;
    row["rows"] = one.rows;
    row["figures"] = Json::object();
    for (std::size_t i = 0; i < one.figures.size(); ++i) {
      row["figures"][std::string(catalogue::kGradeNames[i])] = one.figures[i];
    }
    row["without"] = one.without;
    out["tables"].push_back(row);
  }
  return document(out);
}

}  // namespace aftercrop::emit
