#include <fmt/format.h>

#include <algorithm>

#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::CropId;
using catalogue::Host;
using catalogue::HostRole;
using catalogue::Pathogen;
using diagnostic::Diagnostics;

constexpr Limits kYears{0, 100};
constexpr Limits kFactor{0, 10};

/// Gain of a host by its role.
double gain_of(HostRole role, const catalogue::DiseaseCoefficients& k) {
  switch (role) {
    case HostRole::Prone:
      return 1.0;
    case HostRole::Partial:
      return k.gain_partial;
    case HostRole::Carrier:
      return k.gain_carrier;
    case HostRole::None:
      break;
  }
  return 0.0;
}

Host& host_at(std::vector<Host>& hosts, CropId crop) {
  const auto place =
      std::lower_bound(hosts.begin(), hosts.end(), crop,
                       [](const Host& host, CropId wanted) { return host.crop < wanted; });
  if (place != hosts.end() && place->crop == crop) return *place;
  Host fresh;
  fresh.crop = crop;
  return *hosts.insert(place, fresh);
}

/// Later roles win, so that a family may be named as prone and some of its crops as partial.
void read_hosts(const RowFields& row, Pathogen& pathogen, CatalogueBuild& build) {
  const Node* node = row.get("hosts");
  if (node == nullptr) return;
  const RowFields fields(*node, "hosts", {"prone", "partial", "carrier", "none"}, build.out);
  const std::vector<std::pair<std::string_view, HostRole>> roles = {{"prone", HostRole::Prone},
                                                                    {"partial", HostRole::Partial},
                                                                    {"carrier", HostRole::Carrier},
                                                                    {"none", HostRole::None}};
  for (const auto& [key, role] : roles) {
    const Node* crops = fields.get(key);
    if (crops == nullptr) continue;
    for (const CropId crop : build.crops(*crops)) {
      Host& host = host_at(pathogen.hosts, crop);
      host.role = role;
      host.gain = gain_of(role, build.rows.coefficients.disease);
    }
  }
  pathogen.hosts.erase(std::remove_if(pathogen.hosts.begin(), pathogen.hosts.end(),
                                      [](const Host& host) { return host.role == HostRole::None; }),
                       pathogen.hosts.end());
}

/// `host_gain: {radish: 0.25}` and `tolerance: {strawberry: 0.4}`.
void read_by_crop(const RowFields& row, std::string_view key, double Host::*member,
                  Pathogen& pathogen, CatalogueBuild& build) {
  const Node* node = row.get(key);
  if (node == nullptr) return;
  if (!node->is_map()) {
    build.out.error("wrong-shape", fmt::format("{} must be a table of crops", key), node->source,
                    fmt::format("write `{}: {{crop: number}}`", key));
    return;
  }
  for (std::size_t i = 0; i < node->keys.size(); ++i) {
    const auto crop = build.crop_places.find(node->keys[i]);
    const Host* host =
        crop == build.crop_places.end() ? nullptr : pathogen.host(CropId(crop->second));
    if (host == nullptr) {
      build.out.error("unknown-crop", fmt::format("\"{}\" is not a host", node->keys[i]),
                      node->key_sources[i], "name it under `hosts:` too");
      continue;
    }
    const auto value = read_number(node->items[i], key, kFactor, build.out);
    if (value) host_at(pathogen.hosts, host->crop).*member = *value;
  }
}

void read_biofumigation(const RowFields& row, Pathogen& pathogen, CatalogueBuild& build) {
  const Node* node = row.get("biofumigation");
  if (node == nullptr) return;
  pathogen.biofumigation.clear();
  for (const Node* one : read_list(*node, "biofumigation", build.out)) {
    const RowFields fields(*one, "biofumigation", {"plants", "efficacy", "crop_residue", "source"},
                           build.out);
    fields.need({"plants", "efficacy"});
    catalogue::Biofumigation effect;
    if (const Node* plants = fields.get("plants")) effect.plants = build.crops(*plants);
    fields.range("efficacy", effect.efficacy, {0, 1});
    fields.yes_no("crop_residue", effect.crop_residue);
    read_row_source(fields, build, effect.sources);
    pathogen.biofumigation.push_back(std::move(effect));
  }
}

void read_soil_limits(const RowFields& row, Pathogen& pathogen, Diagnostics& out) {
  if (const Node* node = row.get("ph_factor")) {
    pathogen.ph_factor.clear();
    for (const Node* one : read_list(*node, "ph_factor", out)) {
      const RowFields fields(*one, "ph_factor", {"ph", "factor"}, out);
      catalogue::FactorPoint point;
      fields.number("ph", point.at, {3, 10});
      fields.number("factor", point.factor, kFactor);
      pathogen.ph_factor.push_back(point);
    }
  }
  row.number("wet_factor", pathogen.wet_factor, kFactor);
  if (const Node* node = row.get("soil_below")) {
    const RowFields fields(*node, "soil_below", {"c", "factor", "first_weeks"}, out);
    fields.number("c", pathogen.cool_below_c, {0, 40});
    fields.number("factor", pathogen.cool_factor, kFactor);
    fields.whole("first_weeks", pathogen.cool_weeks, {0, 52});
  }
  if (const Node* node = row.get("soil_above")) {
    const RowFields fields(*node, "soil_above", {"c", "factor"}, out);
    fields.number("c", pathogen.warm_above_c, {0, 40});
    fields.number("factor", pathogen.warm_factor, kFactor);
  }
}

/// `worse_with:` names other diseases, so it is read when all rows are there.
void read_worse_with(const Node& row, CatalogueBuild& build) {
  const Node* id = row.is_map() ? row.find("id") : nullptr;
  const Node* list = row.is_map() ? row.find("worse_with") : nullptr;
  if (id == nullptr || list == nullptr) return;
  const auto place = build.rows.find_pathogen(id->text);
  if (!place) return;
  Pathogen& pathogen = build.rows.pathogens[place->place()];
  pathogen.worse_with.clear();
  for (const Node* one : read_list(*list, "worse_with", build.out)) {
    const RowFields fields(*one, "worse_with", {"disease", "from", "crops", "factor", "source"},
                           build.out);
    fields.need({"disease", "crops", "factor"});
    catalogue::Aggravation effect;
    if (const Node* disease = fields.get("disease")) effect.disease = build.pathogen(*disease);
    if (const Node* crops = fields.get("crops")) effect.crops = build.crops(*crops);
    fields.number("from", effect.from_load, {0, 16});
    fields.number("factor", effect.factor, {1, 10});
    read_row_source(fields, build, effect.sources);
    if (effect.disease.known()) pathogen.worse_with.push_back(std::move(effect));
  }
}

void read_load(const RowFields& row, Pathogen& pathogen) {
  row.text("scale", pathogen.scale);
  row.number("threshold", pathogen.threshold, {0.001, 1e9});
  row.text("survives_as", pathogen.survives_as);
  row.range("half_life_years", pathogen.half_life_years, {0.05, 100});
  row.range("break_years", pathogen.break_years, kYears);
  row.number("gain", pathogen.gain, {0, 8});
  row.number("ceiling", pathogen.ceiling, {1, 1000});
  row.choice<bool>("presence", pathogen.background, {{"background", true}, {"if-seen", false}});
  row.number("advise_at", pathogen.advise_at, {0.01, 1});
  row.number("residue_carried_off", pathogen.residue_carried_off, {0, 1});
}

void read_pathogen(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "pathogens", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.pathogens, id);
  Pathogen& pathogen = build.rows.pathogens[place];
  const RowFields row(node, "a disease",
                      {"id",
                       "name",
                       "cause",
                       "scale",
                       "threshold",
                       "survives_as",
                       "half_life_years",
                       "break_years",
                       "gain",
                       "ceiling",
                       "presence",
                       "advise_at",
                       "residue_carried_off",
                       "ph_factor",
                       "wet_factor",
                       "soil_below",
                       "soil_above",
                       "hosts",
                       "host_gain",
                       "tolerance",
                       "biofumigation",
                       "weeds",
                       "no_help",
                       "worse_with",
                       "source"},
                      build.out);
  if (fresh) row.need({"name", "half_life_years", "break_years", "gain", "hosts"});
  if (fresh && !build.over_base) row.need({"source"});
  row.text("name", pathogen.name);
  row.text("cause", pathogen.cause);
  read_load(row, pathogen);
  read_soil_limits(row, pathogen, build.out);
  read_hosts(row, pathogen, build);
  read_by_crop(row, "host_gain", &Host::gain, pathogen, build);
  read_by_crop(row, "tolerance", &Host::tolerance, pathogen, build);
  read_biofumigation(row, pathogen, build);
  row.texts("weeds", pathogen.weeds);
  row.texts("no_help", pathogen.no_help);
  read_row_source(row, build, pathogen.sources);
}

void read_host_return(const Node& node, CatalogueBuild& build) {
  const RowFields row(node, "a host return",
                      {"crops", "after", "seasons", "if_seen", "reason", "source"}, build.out);
  row.need({"crops", "after", "seasons", "reason"});
  catalogue::HostReturn pair;
  if (const Node* crops = row.get("crops")) pair.crops = build.crops(*crops);
  if (const Node* after = row.get("after")) pair.after = build.crops(*after);
  if (const Node* seasons = row.get("seasons")) {
    const RowFields fields(*seasons, "seasons", {"min", "rec"}, build.out);
    fields.whole("min", pair.min, kYears);
    fields.whole("rec", pair.rec, kYears);
    check_order(pair.min, pair.rec, "seasons", seasons->source, build.out);
  }
  if (const Node* seen = row.get("if_seen")) pair.if_seen = build.pathogen(*seen);
  row.text("reason", pair.reason);
  read_row_source(row, build, pair.sources);
  build.rows.host_returns.push_back(std::move(pair));
}

}  // namespace

void read_pathogens(const Node& node, CatalogueBuild& build) {
  const std::vector<const Node*> rows = read_list(node, "pathogens", build.out);
  for (const Node* row : rows) read_pathogen(*row, build);
  for (const Node* row : rows) read_worse_with(*row, build);
}

void read_host_returns(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "host_returns", build.out)) read_host_return(*row, build);
}

}  // namespace aftercrop::load
