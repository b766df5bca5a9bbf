#include "ground.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "aftercrop/ledger/walk.h"
#include "charges.h"
#include "possible_stands.h"

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr Weeks kRunOn(52);          // a stand may run so long past the seasons
constexpr double kNearlyAll = 0.95;  // of the smallest stand is enough

std::vector<catalogue::PathogenId> with_evidence(const garden::Garden& garden, garden::BedId bed) {
  std::set<catalogue::PathogenId> found;
  for (const auto& sighting : garden.sightings) {
    if (sighting.bed == bed) found.insert(sighting.disease);
  }
  for (const auto& test : garden.tests) {
    if (test.bed == bed && test.disease) found.insert(*test.disease);
  }
  return {found.begin(), found.end()};
}

/// What will come to a bed from outside, as one list to compare.
std::vector<std::tuple<int, int, int, double>> coming(const garden::Garden& garden,
                                                      garden::BedId bed,
                                                      const catalogue::NitrogenCoefficients& k) {
  std::vector<std::tuple<int, int, int, double>> rows;
  const calendar::Date first = calendar::monday(garden.seasons.first);
  const int binding_days = static_cast<int>(k.manure_days_touching);  // of what is harvested after
  for (const auto& one : garden.applications) {
    if (one.bed != bed || one.date.plus_days(binding_days) < first) continue;
    rows.emplace_back(0, one.date.serial(), static_cast<int>(one.material.place()), one.kg_per_m2);
  }
  for (const auto& one : garden.tests) {
    if (one.bed != bed || one.date < first) continue;
    const int what = one.disease ? static_cast<int>(one.disease->place()) : -1;
    rows.emplace_back(1, one.date.serial(), what, one.nitrate_n_ppm.value_or(one.count));
    rows.emplace_back(2, one.date.serial(), what, one.depth_cm);
  }
  for (const auto& one : garden.sightings) {
    if (one.bed != bed || one.date < first) continue;
    rows.emplace_back(3, one.date.serial(), static_cast<int>(one.disease.place()),
                      static_cast<double>(one.severity) + (one.shared ? 0.5 : 0.0));
  }
  return rows;
}

bool same_site(const garden::Bed& a, const garden::Bed& b) {
  return a.area == b.area && a.soil == b.soil && a.shelter == b.shelter &&
         a.organic_matter_pct == b.organic_matter_pct && a.ph == b.ph && a.watered == b.watered &&
         a.poorly_drained == b.poorly_drained && a.bought_mix == b.bought_mix;
}

}  // namespace

Grounds::Grounds(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const ledger::SiteClimates& climates, const Wanted& wanted)
    : garden_(&garden), catalogue_(&catalogue), climates_(&climates), wanted_(&wanted) {}

Ground Grounds::begin(garden::BedId bed) const {
  const garden::Bed& row = garden_->bed(bed);
  Ground ground;
  ground.bed = bed;
  ground.area_m2 = row.area.value();
  ground.covers_bind = rules::covers_bind(*garden_, *catalogue_);
  ground.ledger = std::make_unique<ledger::BedLedger>(
      *catalogue_, *garden_, bed, climates_->of(row.shelter), with_evidence(*garden_, bed));
  std::vector<const garden::Planting*> past;
  for (const garden::Planting& planting : garden_->history) {
    const bool begun = garden::weeks_of(planting).first < garden_->seasons.first;
    if (planting.bed == bed && begun) past.push_back(&planting);
  }
  ground.start = ground.ledger->opening();
  ledger::WalkOptions options;
  options.until = garden_->seasons.first;
  ledger::walk(*ground.ledger, ground.start, past, options);
  return ground;
}

std::optional<std::string> Grounds::unlike(const Ground& one, const Ground& other) const {
  const auto told = [&](const char* what) {
    return fmt::format("beds {} and {} differ in {}", garden_->bed(one.bed).name,
                       garden_->bed(other.bed).name, what);
  };
  if (!same_site(garden_->bed(one.bed), garden_->bed(other.bed))) return told("size or soil");
  if (one.ledger->tracked() != other.ledger->tracked()) return told("the diseases seen there");
  if (!(one.start == other.start)) return told("what they carry from the past");
  const auto& k = catalogue_->coefficients.nitrogen;
  if (coming(*garden_, one.bed, k) != coming(*garden_, other.bed, k)) {
    return told("what is spread, tested or seen there");
  }
  if (!decided(one).empty() || !decided(other).empty()) return told("what is decided for them");
  return {};
}

std::vector<const garden::Planting*> Grounds::decided(const Ground& ground) const {
  std::vector<const garden::Planting*> rows;
  for (const garden::Planting& planting : garden_->history) {
    if (planting.bed != ground.bed) continue;
    if (garden::weeks_of(planting).first >= ground.start.week) rows.push_back(&planting);
  }
  return rows;
}

const std::vector<ledger::StandSpec>& Grounds::stands_at(garden::Shelter shelter,
                                                         bool disease_seen) {
  const std::pair key(shelter, disease_seen);
  auto known = stands_.find(key);
  if (known == stands_.end()) {
    known = stands_
                .emplace(key, possible_stands(*garden_, *catalogue_, climates_->of(shelter),
                                              *wanted_, disease_seen))
                .first;
  }
  return known->second;
}

/// In order of start; weeks that two of them share stay with the earlier one.
void Grounds::add_decided(Ground& ground, std::vector<WeekSpan>& taken) const {
  for (const garden::Planting* planting : decided(ground)) {
    ledger::StandSpec spec = ledger::spec_of(*planting);
    if (spec.weeks.first >= garden_->seasons.past) continue;
    const Week last = garden_->seasons.past + kRunOn;
    if (!taken.empty()) spec.weeks.first = std::max(spec.weeks.first, taken.back().past);
    spec.weeks.past = std::min(spec.weeks.past, last);
    if (spec.weeks.first >= spec.weeks.past) continue;
    spec.harvest.first = std::clamp(spec.harvest.first, spec.weeks.first, spec.weeks.past);
    spec.harvest.past = std::clamp(spec.harvest.past, spec.harvest.first, spec.weeks.past);
    Option option;
    option.stand = ground.ledger->make_stand(spec);
    option.worth = wanted_->stand_worth(spec.crop, ground.area_m2);
    option.decided = true;
    ground.options.push_back(std::move(option));
    taken.push_back(spec.weeks);
  }
}

void Grounds::fill(Ground& ground) {
  std::vector<WeekSpan> taken;
  add_decided(ground, taken);
  const auto is_taken = [&](WeekSpan span) {
    return std::any_of(taken.begin(), taken.end(), [&](const WeekSpan& other) {
      return span.first < other.past && other.first < span.past;
    });
  };
  const bool seen = !ground.ledger->tracked().empty();
  const Week end = std::max(ground.start.week, garden_->seasons.past);
  for (const ledger::StandSpec& spec : stands_at(ground.ledger->bed().shelter, seen)) {
    const catalogue::Crop& crop = catalogue_->crop(spec.crop);
    if (!crop.is_cover() && ground.area_m2 < kNearlyAll * crop.smallest_stand_m2) continue;
    if (spec.weeks.first < ground.start.week || spec.weeks.first >= end) continue;
    if (spec.weeks.past > end + kRunOn || is_taken(spec.weeks)) continue;
    Option option;
    option.stand = ground.ledger->make_stand(spec);
    option.worth = wanted_->stand_worth(spec.crop, ground.area_m2);
    rules::Breaches breaches;
    rules::judge_stand({*ground.ledger, ground.start, option.stand, ground.covers_bind}, breaches);
    if (!charge_breaches(breaches, *garden_, option.worth, option.fixed)) continue;
    ground.options.push_back(std::move(option));
  }
  ground.leaving.resize(static_cast<std::size_t>((end - ground.start.week).count()));
  for (std::size_t i = 0; i < ground.options.size(); ++i) {
    ground.leaving[ground.node(ground.options[i].stand.spec.weeks.first)].push_back(i);
  }
  for (Week week = ground.start.week; week < end; ++week) {
    ground.may_rest.push_back(is_taken({week, week + Weeks(1)}) ? 0 : 1);
  }
}

}  // namespace aftercrop::verifier
