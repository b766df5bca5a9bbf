#include "load/catalogue_row.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace aftercrop::load {
namespace {

using catalogue::CropId;
using diagnostic::Diagnostics;

bool well_formed(const std::string& id) {
  return !id.empty() && id.size() <= 60 && id.front() != '-' &&
         std::all_of(id.begin(), id.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
         });
}

std::vector<CropId> family_members(const catalogue::Catalogue& rows, std::string_view id) {
  std::vector<CropId> members;
  for (std::size_t i = 0; i < rows.crops.size(); ++i) {
    if (rows.family(rows.crops[i].family).id == id) members.emplace_back(i);
  }
  return members;
}

}  // namespace

std::vector<CropId> CatalogueBuild::crops(const Node& node) {
  std::vector<CropId> found;
  for (const Node* item : list_of(node)) {
    const auto text = read_text(*item, "a crop", out);
    if (!text) continue;
    const auto place = crop_places.find(*text);
    if (place != crop_places.end()) {
      found.emplace_back(place->second);
      continue;
    }
    const std::vector<CropId> members = family_members(rows, *text);
    found.insert(found.end(), members.begin(), members.end());
    if (!members.empty()) continue;
    std::vector<std::string> known;
    for (const auto& crop : rows.crops) known.push_back(crop.id);
    report_unknown("unknown-crop", "the id of a crop or family", *item, known, out);
  }
  return found;
}

catalogue::PathogenId CatalogueBuild::pathogen(const Node& node) {
  const auto text = read_text(node, "a disease", out);
  if (!text) return {};
  if (const auto id = rows.find_pathogen(*text)) return *id;
  std::vector<std::string> known;
  for (const auto& one : rows.pathogens) known.push_back(one.id);
  report_unknown("unknown-disease", "the id of a disease", node, known, out);
  return {};
}

void RowFields::need(const std::vector<std::string_view>& keys) const {
  for (const std::string_view key : keys) static_cast<void>(fields_.need(key, *out_));
}

void RowFields::text(std::string_view key, std::string& into) const {
  if (const Node* node = get(key)) {
    if (auto value = read_text(*node, key, *out_)) into = std::move(*value);
  }
}

void RowFields::texts(std::string_view key, std::vector<std::string>& into) const {
  const Node* node = get(key);
  if (node == nullptr) return;
  into.clear();
  for (const Node* item : list_of(*node)) {
    if (auto value = read_text(*item, key, *out_)) into.push_back(std::move(*value));
  }
}

void RowFields::number(std::string_view key, double& into, Limits limits) const {
  if (const Node* node = get(key)) {
    if (const auto value = read_number(*node, key, limits, *out_)) into = *value;
  }
}

void RowFields::whole(std::string_view key, int& into, Limits limits) const {
  if (const Node* node = get(key)) {
    if (const auto value = read_whole(*node, key, limits, *out_)) into = *value;
  }
}

void RowFields::yes_no(std::string_view key, bool& into) const {
  if (const Node* node = get(key)) {
    if (const auto value = read_yes_no(*node, key, *out_)) into = *value;
  }
}

void RowFields::numbers(std::string_view key, std::span<double> into, Limits limits) const {
  const Node* node = get(key);
  if (node == nullptr) return;
  const std::vector<const Node*> items = read_list(*node, key, *out_);
  if (node->is_sequence() && items.size() != into.size()) {
    out_->error("wrong-count", fmt::format("{} has {} numbers", key, items.size()), node->source,
                fmt::format("write {}", into.size()));
    return;
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (const auto value = read_number(*items[i], key, limits, *out_)) into[i] = *value;
  }
}

void RowFields::range(std::string_view key, catalogue::Range& into, Limits limits) const {
  const Node* node = get(key);
  if (node == nullptr) return;
  std::array<double, 3> values = {into.low, into.typical, into.high};
  numbers(key, values, limits);
  into = {values[0], values[1], values[2]};
  check_order(into.low, into.typical, key, node->source, *out_);
  check_order(into.typical, into.high, key, node->source, *out_);
}

void RowFields::pair(std::string_view key, double& least, double& most, Limits limits) const {
  const Node* node = get(key);
  if (node == nullptr) return;
  std::array<double, 2> values = {least, most};
  numbers(key, values, limits);
  least = values[0];
  most = values[1];
  check_order(least, most, key, node->source, *out_);
}

void check_order(double least, double most, std::string_view what, const diagnostic::Source& source,
                 Diagnostics& out) {
  if (least <= most) return;
  out.error("out-of-order", fmt::format("{} goes down from {:g} to {:g}", what, least, most),
            source, "write the smallest figure first");
}

void read_row_source(const RowFields& fields, CatalogueBuild& build,
                     std::vector<catalogue::Citation>& into) {
  if (const Node* node = fields.get("source")) {
    read_source(*node, build.rows.bibliography, into, build.out);
  } else if (build.over_base) {
    const std::string& file = fields.source().file->name;
    const catalogue::Citation given{"changed here", "as given in " + file, ""};
    if (std::find(into.begin(), into.end(), given) == into.end()) into.push_back(given);
  }
}

std::string read_row_id(const Node& row, std::string_view table, CatalogueBuild& build) {
  const Node* node = row.is_map() ? row.find("id") : nullptr;
  if (node == nullptr || !node->is_scalar()) {
    build.out.error("missing-key", fmt::format("a row of {} needs \"id\"", table), row.source,
                    "add `id: ...`");
    return {};
  }
  if (!check_row_id(node->text, table, node->source, build)) return {};
  return node->text;
}

bool check_row_id(const std::string& id, std::string_view table, const diagnostic::Source& source,
                  CatalogueBuild& build) {
  if (!well_formed(id)) {
    build.out.error("bad-id", fmt::format("\"{}\" cannot be an id", id), source,
                    "write small letters, digits and hyphens: my-tomato");
    return false;
  }
  if (!build.seen.insert(fmt::format("{}/{}", table, id)).second) {
    build.out.error("row-twice", fmt::format("{} has \"{}\" twice", table, id), source,
                    "remove one of the two rows");
    return false;
  }
  return true;
}

}  // namespace aftercrop::load
