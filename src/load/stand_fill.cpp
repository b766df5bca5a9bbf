#include "load/stand_fill.h"

#include <fmt/format.h>

#include <algorithm>

namespace aftercrop::load {
namespace {

using calendar::Date;
using catalogue::Crop;
using garden::Planting;

bool gives_harvest(const Crop& crop) {
  return crop.yield_unit != catalogue::YieldUnit::None && !crop.perennial();
}

void fill_end(const Stand& stand, const Crop& crop, StandYears& years, Planting& planting) {
  const bool whole = stand.to && (stand.harvest || !gives_harvest(crop));
  if (whole) return;
  const calendar::Week start = calendar::week_of(planting.from);
  const Run& run = years.run(stand.crop, crop, start);
  const Date harvest = calendar::monday(start + run.to_harvest);
  const Date end = calendar::monday(start + run.to_end);
  planting.to = stand.to.value_or(std::max(end, planting.from.plus_days(7)));
  if (stand.harvest) planting.to = stand.to.value_or(std::max(planting.to, stand.harvest->past));
  const bool failed = stand.ending == catalogue::Ending::Failed;
  if (stand.harvest || failed || !gives_harvest(crop)) return;
  const Date latest = std::max(planting.from, planting.to.plus_days(-7));
  planting.harvest = calendar::DateSpan{std::clamp(harvest, planting.from, latest), planting.to};
}

Date start_of(const Stand& stand, const Crop& crop, const FillContext& context) {
  if (stand.from) return *stand.from;
  return calendar::monday(context.years->middle_start(stand.crop, crop, *stand.year));
}

void set_yield(const Stand& stand, const garden::Garden& garden, Planting& planting) {
  if (!stand.yield) return;
  double area = 1.0;
  if (stand.yield->dimension == Dimension::Mass) {
    area = 0.0;
    for (const garden::BedId bed : stand.beds) area += garden.bed(bed).area.value();
  }
  planting.yield_kg_m2 = stand.yield->value / area;
}

}  // namespace

std::vector<Planting> plantings_of(const Stand& stand, const FillContext& context) {
  const Crop& crop = context.catalogue->crop(stand.crop);
  Planting planting;
  planting.crop = stand.crop;
  planting.from = start_of(stand, crop, context);
  planting.to = stand.to.value_or(planting.from);
  planting.raised = stand.raised;
  planting.harvest = stand.harvest;
  planting.resistance = stand.resistance;
  planting.partners = stand.partners;
  planting.dry_t_ha = stand.dry_t_ha;
  planting.n_pct = stand.n_pct;
  planting.source = stand.source;
  fill_end(stand, crop, *context.years, planting);
  const bool frost_kills =
      crop.is_cover() && context.years->dies_of_frost(crop, weeks_of(planting));
  planting.ending = stand.ending.value_or(usual_ending(crop, context.garden->tillage, frost_kills));
  set_yield(stand, *context.garden, planting);
  if (!stand.from || !stand.to) {
    context.assumed->add_filled(
        stand.source,
        fmt::format("{} from {} to {}", crop.id, planting.from.text(), planting.to.text()));
  }
  std::vector<Planting> all;
  for (const garden::BedId bed : stand.beds) {
    all.push_back(planting);
    all.back().bed = bed;
  }
  return all;
}

}  // namespace aftercrop::load
