// What can be said of a stand from the ledger alone.
#include "explain/standing.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace aftercrop::explain {
namespace {

using Kind = Reason::Kind;
using catalogue::Ending;

constexpr double kLeastGrams = 1.0;
constexpr double kLeastShare = 0.005;  // of a want: less is not worth a sentence
constexpr double kGramsPerM2 = 10.0;   // kg/ha in one

std::vector<garden::WantMet> met_by(const garden::Garden& garden,
                                    const catalogue::Catalogue& catalogue,
                                    const std::vector<const garden::Planting*>& plantings,
                                    const garden::Planting* without) {
  std::vector<garden::Planting> all;
  for (const garden::Planting* one : plantings) {
    if (one != without) all.push_back(*one);
  }
  return garden::wants_met(garden, catalogue, all);
}

void tell_decided(const Standing& standing, std::vector<Reason>& out) {
  const garden::Planting& stand = *standing.line.planting;
  const bool past = garden::weeks_of(stand).first < standing.garden.seasons.first;
  if (!stand.kept && !past) return;
  out.push_back({Kind::Decided,
                 past ? "it was there before the seasons begin"
                      : "you decided it, and the plan works around it",
                 {}});
}

/// What wants get from the stand.
void tell_wants(const Standing& standing, const CropStands& same_crop, std::vector<Reason>& out) {
  if (standing.line.stand.cover) return;
  const garden::Garden& garden = standing.garden;
  const auto without =
      met_by(garden, standing.catalogue, same_crop.plantings, standing.line.planting);
  const std::vector<garden::LineMet> all = garden::lines_met(garden, same_crop.met);
  const std::vector<garden::LineMet> less = garden::lines_met(garden, without);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double from_here = all[i].met - less[i].met;
    if (from_here < kLeastShare * all[i].asked || from_here <= 0.0) continue;
    const garden::WantUnit unit = all[i].want->unit;
    out.push_back({Kind::Want,
                   fmt::format("your want of {}: {} of {} come from here, the plan meets {:.0f} %",
                               standing.catalogue.crop(all[i].want->crop).name, kAmount, kAmount,
                               100.0 * std::min(1.0, all[i].share())),
                   {{from_here, unit}, {all[i].asked, unit}}});
  }
}

void tell_service(const Standing& standing, std::vector<Reason>& out) {
  const ledger::StandLine& line = standing.line;
  if (line.stand.cover && standing.next != nullptr) {
    out.push_back(
        {Kind::Cover,
         fmt::format("it stands ahead of {} from {}",
                     standing.catalogue.crop(standing.next->crop).name, standing.next->from.text()),
         {}});
  }
  const double grams =
      line.outcome.flows.fixed * standing.garden.bed(line.planting->bed).area.value() / kGramsPerM2;
  if (grams >= kLeastGrams) {
    out.push_back({Kind::Nitrogen,
                   fmt::format("it takes about {} nitrogen from the air", kAmount),
                   {{grams / 1000.0, garden::WantUnit::Kilograms}}});
  }
  if (line.stand.cover && standing.winter) {
    out.push_back({Kind::Winter, "it covers the ground as the wet or freezing season begins", {}});
  }
}

void tell_forecrop(const Standing& standing, std::vector<Reason>& out) {
  if (standing.previous == nullptr || standing.line.stand.cover) return;
  const catalogue::Crop& before = standing.catalogue.crop(standing.previous->crop);
  const Ending ending = standing.previous->ending;
  const bool roots = ending == Ending::CutRootsLeft || ending == Ending::HarvestedCut ||
                     ending == Ending::Mown || ending == Ending::Winterkilled;
  if (!before.legume || !roots) return;
  out.push_back({Kind::Rule,
                 fmt::format("it follows {}, a legume whose roots stay in the bed", before.name),
                 {}});
}

/// Full seasons since the crop's kin stood here, where a break is asked for.
void tell_break(const Standing& standing, std::vector<Reason>& out) {
  const ledger::StandLine& line = standing.line;
  const catalogue::Crop& crop = standing.catalogue.crop(line.stand.spec.crop);
  if (!crop.group.known()) return;
  const catalogue::BreakGroup& group = standing.catalogue.group(crop.group);
  const int food = line.before.crop_season[crop.group.place()];
  const int cover = line.before.cover_season[crop.group.place()];
  // A cover asks for less after its kin, and after a cover less is asked for.
  const bool bound = !line.stand.cover && food != ledger::kNeverSeason;
  const catalogue::Break asked = bound ? group.crop : group.cover;
  const int last = bound ? food : std::max(food, cover);
  if (last == ledger::kNeverSeason) {
    if (line.stand.cover || group.crop.rec <= 0) return;
    out.push_back({Kind::Rule,
                   fmt::format("{}: never here before, as far as is on record", group.label),
                   {}});
    return;
  }
  const int between = line.stand.season_as_next - last - 1;
  if (between < 0 || asked.rec <= 0) return;
  out.push_back(
      {Kind::Rule,
       fmt::format("{}: last here in season {}, {} season{} between; {} asked for, {} "
                   "advised",
                   group.label, last, between, between == 1 ? "" : "s", asked.min, asked.rec),
       {}});
}

/// Diseases that were seen here and that the crop is prone to.
void tell_loads(const Standing& standing, std::vector<Reason>& out) {
  const ledger::StandLine& line = standing.line;
  for (std::size_t i = 0; i < line.before.loads.size(); ++i) {
    const ledger::Load& load = line.before.loads[i];
    if (!line.stand.loads[i].prone || !load.seen) continue;
    out.push_back({Kind::Rule,
                   fmt::format("{}, seen here: at most {:.0f} % of what does damage is left",
                               standing.catalogue.pathogen(standing.tracked[i]).name,
                               100.0 * load.cautious * line.stand.loads[i].infection),
                   {}});
  }
}

bool winter_begins(const ledger::BedAccount& account, const ledger::StandLine& line) {
  return std::any_of(account.winters.begin(), account.winters.end(), [&](const auto& winter) {
    return line.stand.spec.weeks.contains(winter.week);
  });
}

}  // namespace

CropStands stands_of(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                     std::vector<const garden::Planting*> plantings) {
  CropStands stands;
  stands.met = met_by(garden, catalogue, plantings, nullptr);
  stands.plantings = std::move(plantings);
  return stands;
}

std::vector<Reason> standing_reasons(const Standing& standing, const CropStands& same_crop) {
  std::vector<Reason> out;
  tell_decided(standing, out);
  tell_wants(standing, same_crop, out);
  tell_service(standing, out);
  tell_forecrop(standing, out);
  tell_break(standing, out);
  tell_loads(standing, out);
  return out;
}

PlanReasons reasons_of_plan(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                            const std::vector<ledger::BedAccount>& accounts) {
  std::map<catalogue::CropId, std::vector<const garden::Planting*>> by_crop;
  for (const ledger::BedAccount& account : accounts) {
    for (const ledger::StandLine& line : account.stands) {
      by_crop[line.stand.spec.crop].push_back(line.planting);
    }
  }
  std::map<catalogue::CropId, CropStands> crops;
  for (auto& [crop, plantings] : by_crop) {
    crops[crop] = stands_of(garden, catalogue, std::move(plantings));
  }
  PlanReasons told;
  for (const ledger::BedAccount& account : accounts) {
    for (std::size_t i = 0; i < account.stands.size(); ++i) {
      const ledger::StandLine& line = account.stands[i];
      Standing standing{garden, catalogue, account.tracked, line};
      if (i > 0) standing.previous = account.stands[i - 1].planting;
      if (i + 1 < account.stands.size()) standing.next = account.stands[i + 1].planting;
      standing.winter = winter_begins(account, line);
      told[line.planting] = standing_reasons(standing, crops[line.stand.spec.crop]);
    }
  }
  return told;
}

}  // namespace aftercrop::explain
