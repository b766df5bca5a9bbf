#include <fmt/format.h>

#include <algorithm>

#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

constexpr int kFirstLook = 14;  // days after the start, common practice
constexpr int kDaysBetween = 7;

bool holds(const std::vector<catalogue::CropId>& crops, catalogue::CropId crop) {
  return std::find(crops.begin(), crops.end(), crop) != crops.end();
}

/// The catalogue's row of a trap plant beside this crop; null = no trap.
const catalogue::PartnerRow* trap_row(const StandContext& context, catalogue::CropId partner) {
  for (const catalogue::PartnerRow& row : context.catalogue.partners) {
    if (row.watch_days == 0 || !holds(row.partner_crops, partner)) continue;
    if (row.partner_for.empty() || holds(row.partner_for, context.planting.crop)) return &row;
  }
  return nullptr;
}

}  // namespace

void add_watching(const StandContext& context, std::vector<Task>& out) {
  const garden::Planting& planting = context.planting;
  for (const garden::Partner& partner : planting.partners) {
    const catalogue::PartnerRow* row = trap_row(context, partner.crop);
    if (row == nullptr) continue;
    const std::string trap = short_name(context.catalogue.crop(partner.crop));
    for (calendar::Date day = planting.from.plus_days(kFirstLook); day < planting.to;
         day = day.plus_days(kDaysBetween)) {
      const Task task =
          context.task(TaskKind::Watch, day,
                       fmt::format("Look at the trap plants ({}) by {}", trap, context.crop_name()),
                       fmt::format("every {} days this week: {}", row->watch_days, row->watch));
      out.push_back(until(
          task, {day.plus_days(row->watch_days), "a trap that nobody empties breeds the pest"}));
    }
  }
}

}  // namespace aftercrop::emit
