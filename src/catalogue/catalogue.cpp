#include "aftercrop/catalogue/catalogue.h"

#include <algorithm>

namespace aftercrop::catalogue {
namespace {

template <class Row>
const Row* row_of(const std::vector<Row>& rows, std::string_view id) {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

template <class Id, class Row>
std::optional<Id> id_of(const std::vector<Row>& rows, std::string_view id) {
  const Row* row = row_of(rows, id);
  if (row == nullptr) return {};
  return Id(static_cast<std::size_t>(row - rows.data()));
}

bool joins(const CrossBreak& cross, BreakGroupId one, BreakGroupId other) {
  return (cross.a == one && cross.b == other) || (cross.a == other && cross.b == one);
}

}  // namespace

std::optional<CropId> Catalogue::find_crop(std::string_view id) const {
  return id_of<CropId>(crops, id);
}

std::optional<PathogenId> Catalogue::find_pathogen(std::string_view id) const {
  return id_of<PathogenId>(pathogens, id);
}

std::optional<SoilId> Catalogue::find_soil(std::string_view id) const {
  return id_of<SoilId>(soils, id);
}

std::optional<AmendmentId> Catalogue::find_amendment(std::string_view id) const {
  return id_of<AmendmentId>(amendments, id);
}

const ClimateNormals* Catalogue::find_climate(std::string_view id) const {
  return row_of(climates, id);
}

const Caution* Catalogue::find_caution(std::string_view id) const { return row_of(cautions, id); }

Break Catalogue::break_between(CropId earlier, CropId later, bool refuse_covers) const {
  const Crop& first = crop(earlier);
  const Crop& second = crop(later);
  const bool covers = first.is_cover() || second.is_cover();
  if (first.group == second.group && first.group.known()) {
    const BreakGroup& shared = group(first.group);
    if (!covers) return shared.crop;
    const bool bound = refuse_covers && !shared.cover_binds_if_seen.empty();
    return {bound ? shared.crop.min : shared.cover.min, shared.cover.rec};
  }
  if (covers) return {};
  for (const CrossBreak& cross : cross_breaks) {
    if (joins(cross, first.group, second.group)) return cross.crop;
  }
  return {};
}

const Host* Pathogen::host(CropId crop) const {
  const auto found =
      std::lower_bound(hosts.begin(), hosts.end(), crop,
                       [](const Host& host, CropId wanted) { return host.crop < wanted; });
  return found != hosts.end() && found->crop == crop ? &*found : nullptr;
}

}  // namespace aftercrop::catalogue
