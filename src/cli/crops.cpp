#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/emit/json.h"
#include "aftercrop/load/names.h"
#include "cli/commands.h"
#include "cli/crop_sheet.h"
#include "cli/inputs.h"
#include "cli/report.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

using catalogue::Catalogue;
using catalogue::CropId;

std::vector<std::string> names_of(const catalogue::Family& family) {
  std::vector<std::string> names = family.also;
  names.push_back(family.id);
  names.push_back(family.name);
  names.push_back(family.trade_name);
  return names;
}

/// Empty and told where no family answers to the name.
std::optional<catalogue::FamilyId> find_family(const Catalogue& catalogue,
                                               const std::string& name) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < catalogue.families.size(); ++i) {
    const std::vector<std::string> names = names_of(catalogue.families[i]);
    if (std::find(names.begin(), names.end(), name) != names.end()) return catalogue::FamilyId(i);
    known.insert(known.end(), names.begin(), names.end());
  }
  const auto near = load::did_you_mean(name, known);
  complain(fmt::format("\"{}\" is not a family of the catalogue{}", name,
                       near ? fmt::format("; did you mean \"{}\"?", *near) : ""));
  return {};
}

std::vector<CropId> list(const Catalogue& catalogue, std::optional<catalogue::FamilyId> family,
                         bool cover_only) {
  std::vector<CropId> crops;
  for (std::size_t i = 0; i < catalogue.crops.size(); ++i) {
    if (family && catalogue.crops[i].family != *family) continue;
    if (cover_only && !catalogue.crops[i].is_cover()) continue;
    crops.emplace_back(i);
  }
  std::sort(crops.begin(), crops.end(),
            [&](CropId a, CropId b) { return catalogue.crop(a).id < catalogue.crop(b).id; });
  return crops;
}

/// One crop by name; empty and told where there is none.
std::vector<CropId> one(const Catalogue& catalogue, const std::string& name, const Shared& shared) {
  diagnostic::Diagnostics told;
  const auto id = load::find_crop(name, catalogue, {}, told);
  print_findings(stderr, told, shared);
  if (!id) return {};
  return {*id};
}

}  // namespace

ExitCode run_crops(const CropsOptions& options, const Shared& shared) {
  diagnostic::Diagnostics told;
  const auto catalogue = open_catalogue(shared, told);
  print_findings(stderr, told, shared);
  if (!catalogue) return ExitCode::Unusable;
  std::optional<catalogue::FamilyId> family;
  if (!options.family.empty()) {
    family = find_family(*catalogue, options.family);
    if (!family) return ExitCode::Unusable;
  }
  const bool single = !options.id.empty();
  const std::vector<CropId> crops =
      single ? one(*catalogue, options.id, shared) : list(*catalogue, family, options.cover);
  if (single && crops.empty()) return ExitCode::Unusable;
  if (shared.format == Format::Json) {
    print(stdout, emit::crops_json(*catalogue, crops));
  } else {
    print(stdout, single ? crop_sheet(*catalogue, crops.front()) : crop_table(*catalogue, crops));
  }
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
