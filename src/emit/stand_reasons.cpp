#include "emit/stand_reasons.h"

#include <fmt/format.h>

#include "emit/amounts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using catalogue::Crop;
using catalogue::Ending;
using garden::WantUnit;

std::string amount_text(const garden::Want& want, garden::UnitSystem units) {
  switch (want.unit) {
    case WantUnit::Kilograms:
      return mass_text(want.amount, units);
    case WantUnit::SquareMetres:
      return area_text(want.amount, units);
    case WantUnit::Stems:
      return fmt::format("{:.0f} stems", want.amount);
    case WantUnit::Plants:
      break;
  }
  return fmt::format("{:.0f} plants", want.amount);
}

/// The first want that the harvest can serve; null = none.
const garden::Want* served(const garden::Garden& garden, const garden::Planting& planting) {
  const calendar::WeekSpan harvest = garden::harvest_weeks_of(planting);
  for (const garden::Want& want : garden.wants) {
    if (want.crop != planting.crop) continue;
    if (want.window.first < harvest.past && harvest.first < want.window.past) return &want;
  }
  return nullptr;
}

/// Wants of one line of the garden file that one year repeats.
int repeats(const garden::Garden& garden, const garden::Want& want) {
  int count = 0;
  const int year = calendar::iso(want.window.first).year;
  for (const garden::Want& other : garden.wants) {
    if (other.series == want.series && calendar::iso(other.window.first).year == year) ++count;
  }
  return count;
}

void add_want(const CalendarInput& input, const StandView& stand, std::vector<std::string>& out) {
  const garden::Want* want = served(input.garden, *stand.planting);
  if (want == nullptr) return;
  const std::string amount = amount_text(*want, input.garden.units);
  const int times = repeats(input.garden, *want);
  out.push_back(times > 1 ? fmt::format("you want {} {} times a year", amount, times)
                          : fmt::format("you want {} of it", amount));
}

void add_service(const CalendarInput& input, const StandView& stand,
                 std::vector<std::string>& out) {
  const Crop& crop = input.catalogue.crop(stand.planting->crop);
  if (stand.line == nullptr) return;
  const garden::Bed& bed = input.garden.bed(stand.planting->bed);
  const double fixed = bed_amount(stand.line->outcome.flows.fixed, bed, input.garden.units);
  if (crop.legume && fixed > 0.0) {
    out.push_back(fmt::format("takes {} {} of nitrogen from the air", two_digits(fixed),
                              bed_unit(input.garden.units)));
  }
  if (!crop.is_cover()) return;
  if (stand.next != nullptr) {
    const Crop& next = input.catalogue.crop(stand.next->crop);
    if (crop.legume && next.feeder == catalogue::Feeder::Heavy) {
      out.push_back(fmt::format("goes ahead of {}, which eats much", short_name(next)));
    }
  }
  for (std::size_t i = 0; i < stand.line->stand.loads.size(); ++i) {
    if (!stand.line->stand.loads[i].effective) continue;
    const auto& tracked = stand.line->before.loads;
    if (i < tracked.size()) out.emplace_back("lowers soil-borne disease as it is dug in");
    break;
  }
  if (garden::weeks_of(*stand.planting).length().count() >= 20) {
    out.emplace_back("keeps the ground covered over the winter");
  }
}

void add_forecrop(const CalendarInput& input, const StandView& stand,
                  std::vector<std::string>& out) {
  if (stand.previous == nullptr) return;
  const Crop& before = input.catalogue.crop(stand.previous->crop);
  const Ending ending = stand.previous->ending;
  const bool roots =
      ending == Ending::CutRootsLeft || ending == Ending::HarvestedCut || ending == Ending::Mown;
  if (before.legume && roots && !input.catalogue.crop(stand.planting->crop).is_cover()) {
    out.push_back(
        fmt::format("follows {}, a legume whose roots stay in the bed", short_name(before)));
  }
}

/// Full seasons since the crop's kin stood here, as the state before it tells.
void add_break(const CalendarInput& input, const StandView& stand, std::vector<std::string>& out) {
  const Crop& crop = input.catalogue.crop(stand.planting->crop);
  if (stand.line == nullptr || crop.is_cover() || !crop.group.known()) return;
  const catalogue::BreakGroup& group = input.catalogue.group(crop.group);
  const int last = stand.line->before.crop_season[crop.group.place()];
  if (last == ledger::kNeverSeason) {
    out.push_back(fmt::format("no {} on record here before", group.label));
    return;
  }
  const int between = stand.line->stand.season_as_next - last - 1;
  if (between < 0) return;
  out.push_back(fmt::format("{} full season{} without {} here ({} asked for, better {})", between,
                            between == 1 ? "" : "s", group.label, group.crop.min, group.crop.rec));
}

}  // namespace

std::vector<std::string> stand_reasons(const CalendarInput& input, const StandView& stand) {
  std::vector<std::string> out;
  if (stand.planting->kept) out.emplace_back("you decided it");
  add_want(input, stand, out);
  add_service(input, stand, out);
  add_forecrop(input, stand, out);
  add_break(input, stand, out);
  if (out.empty()) out.emplace_back("it stands in the plan; no want and no rule asks for it");
  return out;
}

}  // namespace aftercrop::emit
