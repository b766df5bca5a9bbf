#include <algorithm>
#include <array>

#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

constexpr std::array<std::string_view, 7> kWhenEaten = {
    "raw-beans",    "green-potato", "rhubarb-leaf", "bitter-squash",
    "nitrate-leaf", "sap",          "cut-flower"};
constexpr std::string_view kWhenChopped = "mustard-gas";

Moment moment_of(const std::string& caution, const garden::Planting& planting) {
  if (caution == kWhenChopped) return Moment::End;
  if (std::find(kWhenEaten.begin(), kWhenEaten.end(), caution) == kWhenEaten.end()) {
    return Moment::Start;
  }
  return planting.harvest ? Moment::Harvest : Moment::End;
}

}  // namespace

std::string caution_text(const std::vector<std::string>& ids,
                         const catalogue::Catalogue& catalogue) {
  std::string out;
  std::vector<std::string> said;
  for (const std::string& id : ids) {
    if (std::find(said.begin(), said.end(), id) != said.end()) continue;
    said.push_back(id);
    const catalogue::Caution* caution = catalogue.find_caution(id);
    if (caution == nullptr) continue;
    if (!out.empty()) out += ' ';
    out += caution->text;
  }
  return out;
}

std::string cautions_at(Moment moment, const StandContext& context) {
  std::vector<std::string> ids;
  const auto collect = [&](const catalogue::Crop& crop) {
    for (const std::string& id : crop.cautions) {
      if (moment_of(id, context.planting) == moment) ids.push_back(id);
    }
  };
  collect(context.crop());
  for (const garden::Partner& partner : context.planting.partners) {
    collect(context.catalogue.crop(partner.crop));
  }
  return caution_text(ids, context.catalogue);
}

}  // namespace aftercrop::emit
