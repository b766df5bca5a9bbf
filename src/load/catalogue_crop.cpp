#include <fmt/format.h>

#include <algorithm>

#include "load/catalogue_tables.h"
#include "load/lookup.h"

namespace aftercrop::load {
namespace {

using catalogue::BreakGroupId;
using catalogue::Crop;
using catalogue::CropId;
using catalogue::FamilyId;

const std::vector<std::string_view> kCropKeys = {"id",
                                                 "like",
                                                 "forms",
                                                 "family",
                                                 "name",
                                                 "botanical_name",
                                                 "also",
                                                 "kind",
                                                 "break_group",
                                                 "start",
                                                 "spacing",
                                                 "seed",
                                                 "days",
                                                 "harvest",
                                                 "yield",
                                                 "hardiness",
                                                 "temperature",
                                                 "life",
                                                 "calendar",
                                                 "work",
                                                 "support",
                                                 "nitrogen",
                                                 "root_depth_cm",
                                                 "fixation",
                                                 "feeder",
                                                 "edible_part",
                                                 "cover",
                                                 "residue",
                                                 "cautions",
                                                 "source",
                                                 "touches_soil",
                                                 "smallest_stand_m2",
                                                 "succession_weeks",
                                                 "resistant",
                                                 "tolerant"};
/// What a form of a crop may say: its family and group are the crop's.
const std::vector<std::string_view> kFormKeys = {"form",
                                                 "name",
                                                 "also",
                                                 "start",
                                                 "spacing",
                                                 "seed",
                                                 "days",
                                                 "harvest",
                                                 "yield",
                                                 "hardiness",
                                                 "temperature",
                                                 "life",
                                                 "calendar",
                                                 "work",
                                                 "nitrogen",
                                                 "smallest_stand_m2",
                                                 "resistant",
                                                 "tolerant",
                                                 "succession_weeks",
                                                 "source"};
/// What a row must say that is like no other.
const std::vector<std::string_view> kNeededKeys = {"name",        "kind",    "start",   "seed",
                                                   "days",        "harvest", "yield",   "hardiness",
                                                   "temperature", "life",    "nitrogen"};

/// The break group of a crop: named, or the only one of its family.
void read_group(const RowFields& row, Crop& crop, CatalogueBuild& build) {
  const Node* node = row.get("break_group");
  std::vector<std::string> known;
  std::vector<BreakGroupId> own;
  for (std::size_t i = 0; i < build.rows.groups.size(); ++i) {
    if (build.rows.groups[i].family != crop.family) continue;
    own.emplace_back(i);
    known.push_back(build.rows.groups[i].id);
    if (node != nullptr && build.rows.groups[i].id == node->text) crop.group = BreakGroupId(i);
  }
  if (node != nullptr) {
    if (std::find(known.begin(), known.end(), node->text) == known.end()) {
      report_unknown("unknown-break", "a break of this family", *node, known, build.out);
    }
    return;
  }
  const bool belongs = std::find(own.begin(), own.end(), crop.group) != own.end();
  if (own.size() == 1) {
    crop.group = own.front();
  } else if (!belongs) {
    build.out.error("missing-key", fmt::format("{} needs \"break_group\"", crop.id), row.source(),
                    fmt::format("one of: {}", fmt::join(known, ", ")));
  }
}

void read_family_of(const RowFields& row, FamilyId of_file, Crop& crop, bool fresh,
                    CatalogueBuild& build) {
  if (const Node* node = row.get("family")) {
    if (const auto place =
            find_row(build.rows.families, *node, "a family", "unknown-family", build.out)) {
      crop.family = FamilyId(*place);
    }
  } else if (of_file.known() && (fresh || !build.over_base)) {
    crop.family = of_file;
  }
  if (!crop.family.known()) {
    build.out.error("missing-key", fmt::format("{} needs \"family\"", crop.id), row.source(),
                    "write `family: solanaceae` in the row or at the head of the file");
    return;
  }
  read_group(row, crop, build);
}

void read_residue(const RowFields& row, Crop& crop, CatalogueBuild& build) {
  const Node* node = row.get("residue");
  if (node == nullptr) return;
  if (const auto place =
          find_row(build.rows.residues, *node, "a residue class", "unknown-residue", build.out)) {
    crop.residue = catalogue::ResidueId(*place);
  }
}

void read_crop_cautions(const RowFields& row, Crop& crop, CatalogueBuild& build) {
  const Node* node = row.get("cautions");
  if (node == nullptr) return;
  crop.cautions.clear();
  std::vector<std::string> known;
  for (const auto& caution : build.rows.cautions) known.push_back(caution.id);
  for (const Node* item : list_of(*node)) {
    if (std::find(known.begin(), known.end(), item->text) == known.end()) {
      report_unknown("unknown-caution", "the id of a caution", *item, known, build.out);
    } else {
      crop.cautions.push_back(item->text);
    }
  }
}

/// Names of diseases; they are looked up only where the diseases are read already (a user's file).
void read_resistance(const RowFields& row, std::string_view key, std::vector<std::string>& into,
                     CatalogueBuild& build) {
  const Node* node = row.get(key);
  if (node == nullptr) return;
  into.clear();
  for (const Node* item : list_of(*node)) {
    if (build.over_base && !build.pathogen(*item).known()) continue;
    into.push_back(item->text);
  }
}

struct Base {
  std::size_t place = 0;
  bool fresh = true;
  std::optional<CropId> like;
};

/// The row to fill: of that id, or a new one, filled from the crop it is like. Empty where that
/// crop is unknown.
std::optional<Base> open_crop(const Node& node, const std::string& id, CatalogueBuild& build) {
  std::optional<CropId> like;
  if (const Node* named = node.find("like")) {
    const auto from = find_row(build.rows.crops, *named, "a crop", "unknown-crop", build.out);
    if (!from) return {};
    like = CropId(*from);
  }
  const auto [place, fresh] = open_row(build.rows.crops, id);
  build.crop_places.emplace(id, place);
  if (like && like->place() != place) {
    Crop copy = build.rows.crop(*like);
    copy.id = id;
    copy.also.clear();
    copy.form_of = {};
    build.rows.crops[place] = std::move(copy);
  }
  return Base{place, fresh, like};
}

/// What a row says, from the name on.
void read_words_and_figures(const RowFields& row, Crop& crop, CatalogueBuild& build) {
  row.text("name", crop.name);
  row.text("botanical_name", crop.botanical_name);
  row.texts("also", crop.also);
  row.text("kind", crop.kind);
  read_crop_growing(row, crop, build.out);
  read_crop_nitrogen(row, crop, build.out);
  read_cover(row, crop, build.out);
  read_residue(row, crop, build);
  read_crop_cautions(row, crop, build);
  read_resistance(row, "resistant", crop.resistant, build);
  read_resistance(row, "tolerant", crop.tolerant, build);
  read_crop_source(row, crop, build);
}

/// A form of a crop: the crop's own row but for what the form says. Its id is crop-form.
void read_form(const Node& node, CropId of, CatalogueBuild& build) {
  const RowFields row(node, "a form", kFormKeys, build.out);
  row.need({"form"});
  std::string form;
  row.text("form", form);
  if (form.empty()) return;
  const std::string id = build.rows.crop(of).id + "-" + form;
  const Node* named = row.get("form");
  if (!check_row_id(id, "crops", named->source, build)) return;
  const auto [place, fresh] = open_row(build.rows.crops, id);
  build.crop_places.emplace(id, place);
  if (fresh) {
    const Crop& base = build.rows.crop(of);
    Crop copy = base;
    copy.id = id;
    copy.form_of = of;
    copy.name = base.name + ", " + form;
    copy.also = {form + " " + base.name, form + " " + base.id};
    build.rows.crops[place] = std::move(copy);
  }
  read_words_and_figures(row, build.rows.crops[place], build);
}

void read_forms(const RowFields& row, CropId of, CatalogueBuild& build) {
  const Node* forms = row.get("forms");
  if (forms == nullptr) return;
  for (const Node* one : read_list(*forms, "forms", build.out)) read_form(*one, of, build);
}

void read_crop(const Node& node, FamilyId of_file, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "crops", build);
  if (id.empty()) return;
  const std::optional<Base> opened = open_crop(node, id, build);
  if (!opened) return;
  const Base base = *opened;
  const RowFields row(node, "a crop", kCropKeys, build.out);
  Crop& crop = build.rows.crops[base.place];
  if (base.fresh && !base.like) row.need(kNeededKeys);
  if (base.fresh && base.like) crop.name = id;
  if (base.fresh && !build.over_base) row.need({"source"});
  read_family_of(row, of_file, crop, base.fresh, build);
  read_words_and_figures(row, crop, build);
  if (base.fresh && build.over_base) {
    if (base.like) {
      join_like(CropId(base.place), *base.like, build.rows);
    } else if (crop.family.known()) {
      join_family(CropId(base.place), build.rows);
    }
  }
  read_forms(row, CropId(base.place), build);
}

}  // namespace

void read_crops(const Node& node, FamilyId family, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "crops", build.out)) read_crop(*row, family, build);
}

}  // namespace aftercrop::load
