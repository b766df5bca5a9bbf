#include "bench/general/garden_rows.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "aftercrop/ledger/walk.h"

namespace aftercrop::bench {

GardenRows::GardenRows(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                       const ledger::SiteClimates& climates)
    : garden_(&garden),
      objective_(garden, catalogue),
      classes_(sequencer::bed_classes(garden, catalogue, climates, objective_)) {
  for (const sequencer::BedClass& beds : classes_) {
    for (const garden::BedId bed : beds.beds) {
      beds_.push_back({bed, &beds, BedRows(beds, objective_, program_)});
      constant_ -= beds_.back().rows.unavoidable();
    }
  }
  std::vector<std::vector<std::pair<int, double>>> supply(objective_.supplies().size());
  for (const Bed& bed : beds_) {
    for (std::size_t i = 0; i < bed.rows.taken().size(); ++i) {
      if (bed.rows.taken()[i] < 0) continue;
      for (const auto& [row, m2] : bed.beds->choices()[i].supply) {
        supply[static_cast<std::size_t>(row)].emplace_back(bed.rows.taken()[i], m2);
      }
    }
  }
  add_wants(supply);
  if (objective_.work_counts()) add_work();
}

void GardenRows::add_wants(const std::vector<std::vector<std::pair<int, double>>>& supply) {
  std::vector<int> rows;
  for (std::size_t s = 0; s < supply.size(); ++s) {
    rows.push_back(program_.row(Sense::AtMost, objective_.given()[s]));
    for (const auto& [column, m2] : supply[s]) program_.add(rows.back(), column, -m2);
  }
  for (const sequencer::WantRow& want : objective_.wants()) {
    const int met = program_.row(Sense::AtMost, want.amount_m2);
    for (const int s : want.supplies) {
      const int flow = program_.column(want.worth_per_m2);
      program_.add(met, flow, 1.0);
      program_.add(rows[static_cast<std::size_t>(s)], flow, 1.0);
    }
  }
}

void GardenRows::add_work() {
  const auto weeks = static_cast<std::size_t>(garden_->seasons.length().count());
  std::vector<int> rows;
  for (std::size_t week = 0; week < weeks; ++week) {
    rows.push_back(program_.row(Sense::AtMost, objective_.hands(week)));
    program_.add(rows.back(), program_.column(-garden_->costs.work_per_hour), -1.0);
  }
  for (const Bed& bed : beds_) {
    for (std::size_t i = 0; i < bed.rows.taken().size(); ++i) {
      if (bed.rows.taken()[i] < 0) continue;
      for (const auto& [week, hours] : bed.beds->choices()[i].hours) {
        program_.add(rows[static_cast<std::size_t>(week)], bed.rows.taken()[i], hours);
      }
    }
  }
}

garden::Plan GardenRows::plan_of(const std::vector<double>& columns) const {
  garden::Plan plan;
  for (const Bed& bed : beds_) {
    for (std::size_t i = 0; i < bed.rows.taken().size(); ++i) {
      const int column = bed.rows.taken()[i];
      if (column < 0 || columns[static_cast<std::size_t>(column)] < 0.5) continue;
      if (bed.beds->choices()[i].decided != nullptr) continue;
      const ledger::StandSpec& spec = bed.beds->choices()[i].stand.spec;
      garden::Planting planting;
      planting.bed = bed.bed;
      planting.crop = spec.crop;
      planting.from = calendar::monday(spec.weeks.first);
      planting.to = calendar::monday(spec.weeks.past);
      planting.ending = spec.ending;
      if (spec.harvest.first < spec.harvest.past) {
        planting.harvest = {calendar::monday(spec.harvest.first),
                            calendar::monday(spec.harvest.past)};
      }
      plan.plantings.push_back(planting);
    }
  }
  std::stable_sort(plan.plantings.begin(), plan.plantings.end(), [](const auto& a, const auto& b) {
    return std::tie(a.bed, a.from) < std::tie(b.bed, b.from);
  });
  return plan;
}

bool GardenRows::fix(const garden::Plan& plan) {
  using Key = std::tuple<garden::BedId, catalogue::CropId, calendar::Week, calendar::Week,
                         catalogue::Ending>;
  std::set<Key> wanted;
  for (const garden::Planting& planting : plan.plantings) {
    const ledger::StandSpec spec = ledger::spec_of(planting);
    if (spec.weeks.first < garden_->seasons.first || planting.kept) continue;
    wanted.emplace(planting.bed, spec.crop, spec.weeks.first, spec.weeks.past, spec.ending);
  }
  for (const Bed& bed : beds_) {
    for (std::size_t i = 0; i < bed.rows.taken().size(); ++i) {
      const int column = bed.rows.taken()[i];
      if (column < 0 || bed.beds->choices()[i].decided != nullptr) continue;
      const ledger::StandSpec& spec = bed.beds->choices()[i].stand.spec;
      const bool stands =
          wanted.erase({bed.bed, spec.crop, spec.weeks.first, spec.weeks.past, spec.ending}) > 0;
      program_.fix(column, stands ? 1.0 : 0.0);
    }
  }
  return wanted.empty();
}

}  // namespace aftercrop::bench
