// family-break: a family, or the group of it that shares a break, comes back to a bed too soon.
// Soil-borne troubles of a family outlast a year without it.
// Bad: tomato 2027, potato 2028. Good: tomato 2027, potato 2030.
// Source of the breaks: the families' own rows (Royal Horticultural Society; Coleman; UConn IPM).
#include <fmt/format.h>

#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Royal Horticultural Society advice, crop rotation (published)",
    "Coleman, The New Organic Grower, eight-year rotation (published)"};

void weigh(const Occasion& occasion, std::size_t group, int last, catalogue::Break needed,
           Breaches& out) {
  if (last == ledger::kNeverSeason || needed.rec <= 0) return;
  const int between = occasion.stand.season_as_next - last - 1;
  if (between < 0) return;  // stands of one season-year are one occupation
  if (between >= needed.rec && between >= needed.min) return;
  Breach breach;
  breach.rule = garden::RuleId::FamilyBreak;
  breach.level = between < needed.min ? 0 : 1;
  breach.computed = between;
  breach.limit = breach.level == 0 ? needed.min : needed.rec;
  breach.unit = "seasons between";
  breach.detail = static_cast<int>(group);
  out.push_back(breach);
}

void weigh_group(const Occasion& occasion, catalogue::BreakGroupId id, Breaches& out) {
  const std::size_t own = id.place();
  const catalogue::BreakGroup& group = occasion.catalogue().group(id);
  const bool bound = occasion.clubroot_seen && !group.cover_binds_if_seen.empty();
  const catalogue::Break with_cover{bound ? group.crop.min : group.cover.min, group.cover.rec};
  const std::size_t before = out.size();
  weigh(occasion, own, occasion.before.crop_season[own],
        occasion.crop().is_cover() ? with_cover : group.crop, out);
  if (out.size() == before)
    weigh(occasion, own, occasion.before.cover_season[own], with_cover, out);
}

void judge(const Occasion& occasion, Breaches& out) {
  const catalogue::Catalogue& rows = occasion.catalogue();
  const catalogue::Crop& crop = occasion.crop();
  if (!crop.group.known()) return;
  weigh_group(occasion, crop.group, out);
  for (std::size_t i = 0; i < crop.mixture.size(); ++i) {
    const catalogue::BreakGroupId group = rows.crop(crop.mixture[i].crop).group;
    bool told = !group.known() || group == crop.group;
    for (std::size_t j = 0; j < i; ++j)
      told = told || rows.crop(crop.mixture[j].crop).group == group;
    if (!told) weigh_group(occasion, group, out);
  }
  if (crop.is_cover()) return;
  for (const catalogue::CrossBreak& cross : rows.cross_breaks) {
    const bool here = cross.a == crop.group || cross.b == crop.group;
    if (!here) continue;
    const std::size_t other = (cross.a == crop.group ? cross.b : cross.a).place();
    weigh(occasion, other, occasion.before.crop_season[other], cross.crop, out);
  }
}

Words describe(const Breach& breach, const Occasion& occasion) {
  const catalogue::BreakGroup& group =
      occasion.catalogue().groups[static_cast<std::size_t>(breach.detail)];
  Words words;
  words.message = fmt::format("{} after {} season{} without {}, {} asked for", occasion.crop().name,
                              static_cast<int>(breach.computed), breach.computed == 1 ? "" : "s",
                              group.label, static_cast<int>(breach.limit));
  words.help = fmt::format("wait until season {}, or take another bed (sources span {} seasons)",
                           occasion.stand.season_as_next + static_cast<int>(breach.limit) -
                               static_cast<int>(breach.computed),
                           group.range_seen);
  words.related = fmt::format("last {} stood here", group.label);
  return words;
}

}  // namespace

Rule family_break() {
  return {garden::RuleId::FamilyBreak, judge, nullptr, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
