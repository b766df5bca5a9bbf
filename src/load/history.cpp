#include "load/history.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "load/moments.h"
#include "load/plan_rows.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::Planting;

constexpr int kMostYearsBack = 30;

/// A stand with where it was said: 0 = by the grower, else the number of the plan line.
struct Entry {
  Planting planting;
  int plan_line = 0;
};

/// Rows of an earlier plan that began before `until`; a stand across it runs to its end.
std::vector<Planting> read_plan_line(const Node& node, const RecordContext& context,
                                     Diagnostics& out) {
  const Fields fields(node, "an earlier plan", {"plan", "until"}, out);
  const Node* file = fields.need("plan", out);
  const Node* until = fields.need("until", out);
  if (file == nullptr || until == nullptr) return {};
  const auto name = read_text(*file, "a plan file", out);
  const auto day = read_date(*until, "`until`", out);
  if (!name || !day) return {};
  const auto root = read_file(beside(context.folder, *name), *context.read, file->source, out);
  if (!root) return {};
  const auto plan = read_plan(*root, context, out);
  if (!plan) return {};
  std::vector<Planting> rows;
  for (const Planting& row : plan->plantings) {
    if (row.from < *day) rows.push_back(row);
  }
  return rows;
}

/// A record far from the seasons is a slip of the pen.
bool within_reach(const Planting& row, const RecordContext& context, Diagnostics& out) {
  const auto seasons = context.fill.garden->seasons;
  const auto first = years_later(calendar::monday(seasons.first), -kMostYearsBack);
  const auto last = years_later(calendar::monday(seasons.past), 1);
  if (row.from >= first && row.from <= last) return true;
  out.error("date-far", fmt::format("{} lies far from the seasons of this garden", row.from.text()),
            row.source, fmt::format("records run from {} to {}", first.text(), last.text()));
  return false;
}

bool overlap(const Planting& a, const Planting& b) {
  return a.bed == b.bed && a.from < b.to && b.from < a.to;
}

bool before(const Planting& a, const Planting& b) {
  return std::tie(a.bed, a.from, a.crop) < std::tie(b.bed, b.from, b.crop);
}

/// A kept stand that is over before the seasons begin is history like any other.
void add_stand(const Stand& stand, bool keep, const RecordContext& context,
               std::vector<Entry>& entries, Diagnostics& out) {
  const auto begin = calendar::monday(context.fill.garden->seasons.first);
  for (Planting& row : plantings_of(stand, context.fill)) {
    if (!within_reach(row, context, out)) return;
    row.kept = keep && row.to > begin;
    entries.push_back({std::move(row), 0});
  }
}

void report_overlap(const Entry& earlier, const Entry& later, const RecordContext& context,
                    Diagnostics& out) {
  const auto crop = [&](const Entry& entry) {
    return context.fill.catalogue->crop(entry.planting.crop).id;
  };
  const std::string& bed = context.fill.garden->bed(later.planting.bed).name;
  out.error("history-overlap",
            fmt::format("{} stands in {} from {}, while {} stands there until {}", crop(later), bed,
                        later.planting.from.text(), crop(earlier), earlier.planting.to.text()),
            later.planting.source, "correct one of the dates, or name the section (N1.2)")
      .related.push_back({fmt::format("{} is said here", crop(earlier)), earlier.planting.source});
}

/// Leaves out plan rows that a later line corrects, and rows that are said twice; reports stands of
/// the grower that overlap. The entries are sorted by bed and start.
std::vector<Planting> settle(std::vector<Entry> entries, const RecordContext& context,
                             Diagnostics& out) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) { return before(a.planting, b.planting); });
  std::vector<Entry> kept;
  for (Entry& entry : entries) {
    bool wanted = true;
    while (!kept.empty() && overlap(kept.back().planting, entry.planting)) {
      Entry& last = kept.back();
      if (same_stand(last.planting, entry.planting)) {
        last.planting.kept = last.planting.kept || entry.planting.kept;
        wanted = false;
        break;
      }
      const bool entry_corrects =
          last.plan_line > 0 && (entry.plan_line == 0 || entry.plan_line > last.plan_line);
      const bool last_corrects = entry.plan_line > 0 && !entry_corrects;
      if (last_corrects) wanted = false;
      if (!entry_corrects && !last_corrects) report_overlap(last, entry, context, out);
      if (!entry_corrects) break;
      kept.pop_back();
    }
    if (wanted) kept.push_back(std::move(entry));
  }
  std::vector<Planting> plantings;
  plantings.reserve(kept.size());
  for (Entry& entry : kept) plantings.push_back(std::move(entry.planting));
  return plantings;
}

}  // namespace

std::string beside(const std::string& folder, const std::string& name) {
  return folder.empty() || name.starts_with('/') ? name : folder + "/" + name;
}

bool same_stand(const Planting& a, const Planting& b) {
  return a.bed == b.bed && a.crop == b.crop && a.from == b.from && a.to == b.to;
}

void sort_plantings(std::vector<Planting>& plantings) {
  std::stable_sort(plantings.begin(), plantings.end(), before);
}

std::vector<Planting> read_history(const Node* history, const Node* keep,
                                   const RecordContext& context, Diagnostics& out) {
  std::vector<Entry> entries;
  int plan_line = 0;
  if (history != nullptr) {
    for (const Node* item : read_list(*history, "history", out)) {
      const bool plan = item->is_map() && item->find("plan") != nullptr;
      if (plan) {
        ++plan_line;
        for (Planting& row : read_plan_line(*item, context, out)) {
          entries.push_back({std::move(row), plan_line});
        }
        continue;
      }
      const auto stand = read_stand(*item, *context.lookup, out);
      if (!stand) continue;
      add_stand(*stand, false, context, entries, out);
    }
  }
  if (keep != nullptr) {
    for (const Node* item : read_list(*keep, "keep", out)) {
      const auto stand = read_stand(*item, *context.lookup, out);
      if (!stand) continue;
      add_stand(*stand, true, context, entries, out);
    }
  }
  return settle(std::move(entries), context, out);
}

}  // namespace aftercrop::load
