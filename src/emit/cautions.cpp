#include <algorithm>

#include "aftercrop/garden/measure_text.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using catalogue::Moment;

/// What is eaten cannot be said at a harvest that a stand does not have.
Moment moment_of(const catalogue::Caution& caution, const garden::Planting& planting) {
  return caution.when == Moment::Harvest && !planting.harvest ? Moment::End : caution.when;
}

}  // namespace

std::string caution_text(const std::vector<std::string>& ids, const catalogue::Catalogue& catalogue,
                         garden::UnitSystem units) {
  std::string out;
  std::vector<std::string> said;
  for (const std::string& id : ids) {
    if (std::find(said.begin(), said.end(), id) != said.end()) continue;
    said.push_back(id);
    const catalogue::Caution* caution = catalogue.find_caution(id);
    if (caution == nullptr) continue;
    if (!out.empty()) out += ' ';
    out += garden::prose_text(caution->text, units);
  }
  return out;
}

std::string cautions_at(catalogue::Moment moment, const StandContext& context) {
  std::vector<std::string> ids;
  const auto collect = [&](const catalogue::Crop& crop) {
    for (const std::string& id : crop.cautions) {
      const catalogue::Caution* caution = context.catalogue.find_caution(id);
      if (caution == nullptr) continue;
      if (moment_of(*caution, context.planting) == moment) ids.push_back(id);
    }
  };
  collect(context.crop());
  for (const garden::Partner& partner : context.planting.partners) {
    collect(context.catalogue.crop(partner.crop));
  }
  return caution_text(ids, context.catalogue, context.garden.units);
}

}  // namespace aftercrop::emit
