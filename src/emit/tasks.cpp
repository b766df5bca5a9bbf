#include "aftercrop/emit/tasks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "emit/fingerprint.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using garden::Planting;

struct KindWords {
  std::string_view name;
  std::string_view label;
};
constexpr std::array<KindWords, kTaskKinds> kWords = {{{"order", "Order"},
                                                       {"soil-test", "Soil test"},
                                                       {"sow-under-cover", "Sow under cover"},
                                                       {"prepare", "Prepare"},
                                                       {"sow", "Sow"},
                                                       {"plant-out", "Plant out"},
                                                       {"thin", "Thin"},
                                                       {"support", "Support"},
                                                       {"watch", "Watch"},
                                                       {"feed", "Feed"},
                                                       {"harvest-start", "Begin harvest"},
                                                       {"harvest-end", "Last harvest"},
                                                       {"cut", "Cut"},
                                                       {"chop-and-dig-in", "Chop and dig in"},
                                                       {"wait-until", "Wait"},
                                                       {"cover", "Cover"},
                                                       {"uncover", "Uncover"},
                                                       {"clear", "Clear"},
                                                       {"frost-kills", "Frost kills"}}};

/// The same for the n-th task of a kind for a crop in a bed and year: a moved date keeps it.
void name_tasks(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                std::vector<Task>& tasks) {
  std::map<std::string, int> times;
  for (Task& task : tasks) {
    const std::string crop = task.crop.known() ? catalogue.crop(task.crop).id : "";
    const int year = calendar::iso(calendar::week_of(task.date)).year;
    const std::string key = fmt::format("{}\x1F{}\x1F{}\x1F{}\x1F{}", garden.name,
                                        garden.bed(task.bed).name, crop, year, name(task.kind));
    const int nth = times[key]++;
    task.uid = fmt::format("{}-{:016x}-{}@aftercrop", name(task.kind), fingerprint(key), nth + 1);
  }
}

std::vector<const Planting*> in_order(const garden::Plan& plan) {
  std::vector<const Planting*> rows;
  for (const Planting& planting : plan.plantings) rows.push_back(&planting);
  std::stable_sort(rows.begin(), rows.end(), [](const Planting* a, const Planting* b) {
    return std::tie(a->bed, a->from) < std::tie(b->bed, b->from);
  });
  return rows;
}

/// The last stand of the garden's records in the planting's bed before it.
const Planting* before_plan(const garden::Garden& garden, const Planting& planting) {
  const Planting* found = nullptr;
  for (const Planting& past : garden.history) {
    if (past.bed != planting.bed || past.from >= planting.from) continue;
    if (found == nullptr || found->from < past.from) found = &past;
  }
  return found;
}

}  // namespace

std::string_view name(TaskKind kind) { return kWords[static_cast<std::size_t>(kind)].name; }

std::string_view label(TaskKind kind) { return kWords[static_cast<std::size_t>(kind)].label; }

std::optional<NextStand> StandContext::follower() const {
  if (next == nullptr) return {};
  return NextStand{next->from, short_name(catalogue.crop(next->crop))};
}

Task StandContext::task(TaskKind kind, calendar::Date date, std::string title,
                        std::string detail) const {
  Task made;
  made.date = date;
  made.latest = date;
  made.kind = kind;
  made.bed = planting.bed;
  made.crop = planting.crop;
  made.title = std::move(title);
  made.detail = std::move(detail);
  return made;
}

Task until(Task task, const LatestDay& latest) {
  task.latest = std::max(task.date, latest.day);
  task.latest_why = latest.why;
  return task;
}

std::vector<Task> tasks(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                        const garden::Plan& plan, const std::vector<ledger::BedAccount>& accounts,
                        const ledger::SiteClimates& climates) {
  const calendar::Date since = calendar::monday(garden.seasons.first);
  std::vector<Task> all;
  const std::vector<const Planting*> rows = in_order(plan);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Planting& planting = *rows[i];
    if (planting.to <= since) continue;
    StandContext context{garden, catalogue, planting, climates.of(garden.bed(planting.bed).shelter),
                         climates.of(garden::Shelter::Open)};
    const bool same_before = i > 0 && rows[i - 1]->bed == planting.bed;
    context.previous = same_before ? rows[i - 1] : before_plan(garden, planting);
    if (i + 1 < rows.size() && rows[i + 1]->bed == planting.bed) context.next = rows[i + 1];
    if (planting.from >= since) add_start(context, all);
    add_end(context, all);
  }
  for (const ledger::BedAccount& account : accounts) {
    add_feeding(garden, catalogue, account, all);
  }
  add_applications(garden, catalogue, all);
  std::stable_sort(all.begin(), all.end(), [](const Task& a, const Task& b) {
    return std::tie(a.date, a.bed, a.kind) < std::tie(b.date, b.bed, b.kind);
  });
  name_tasks(garden, catalogue, all);
  return all;
}

}  // namespace aftercrop::emit
