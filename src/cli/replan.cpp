#include "cli/replan.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "aftercrop/diagnostic/render.h"
#include "cli/plan_summary.h"
#include "cli/report.h"

namespace aftercrop::cli {
namespace {

using garden::Planting;

constexpr std::size_t kMostRows = 20;

bool same_stand(const Planting& a, const Planting& b) {
  return a.bed == b.bed && a.crop == b.crop && garden::weeks_of(a) == garden::weeks_of(b) &&
         a.ending == b.ending;
}

std::string change_text(const explain::PlanChange& change, const Replanning& replanning) {
  const garden::Garden& garden = replanning.garden.garden;
  const auto named = [&](const Planting& one) {
    return fmt::format("{} of {}", replanning.garden.catalogue.crop(one.crop).name,
                       one.from.text());
  };
  std::string what;
  switch (change.kind) {
    case explain::PlanChange::Kind::Gone:
      what = fmt::format("no {}", named(*change.was));
      break;
    case explain::PlanChange::Kind::New:
      what = fmt::format("new {}", named(*change.now));
      break;
    case explain::PlanChange::Kind::Moved:
      what = fmt::format("{} now from {} to {}", named(*change.was), change.now->from.text(),
                         change.now->to.text());
      break;
  }
  return fmt::format("{}: {}; {}", garden.bed(change.bed).name, what, change.why);
}

}  // namespace

Replanning take_up(const load::LoadedGarden& loaded, const garden::Plan& plan,
                   calendar::Date as_of) {
  Replanning out{explain::resume(plan, as_of), loaded};
  garden::Garden& garden = out.garden.garden;
  garden.earlier = out.earlier.ahead;
  const calendar::Week from = calendar::week_of(as_of);
  garden.seasons.first =
      std::clamp(from, garden.seasons.first, garden.seasons.past - calendar::Weeks(1));
  for (const Planting& done : out.earlier.done) {
    const bool known =
        std::any_of(garden.history.begin(), garden.history.end(), [&](const Planting& old) {
          return old.bed == done.bed && old.crop == done.crop && old.from == done.from;
        });
    if (!known) garden.history.push_back(done);
  }
  std::stable_sort(garden.history.begin(), garden.history.end(),
                   [](const Planting& a, const Planting& b) {
                     return std::tie(a.bed, a.from) < std::tie(b.bed, b.from);
                   });
  return out;
}

std::vector<explain::PlanChange> settle(const Replanning& replanning, Planned& planned) {
  garden::Plan& plan = planned.outcome.plan;
  for (Planting& now : plan.plantings) {
    for (const Planting& was : replanning.earlier.ahead) {
      if (same_stand(was, now)) now = was;
    }
  }
  for (const Planting& done : replanning.earlier.done) {
    const bool there =
        std::any_of(plan.plantings.begin(), plan.plantings.end(), [&](const Planting& now) {
          return now.bed == done.bed && now.crop == done.crop && now.from == done.from;
        });
    if (!there) plan.plantings.push_back(done);
  }
  std::stable_sort(plan.plantings.begin(), plan.plantings.end(),
                   [](const Planting& a, const Planting& b) {
                     return std::tie(a.bed, a.from) < std::tie(b.bed, b.from);
                   });
  planned.judgement =
      check::judge(planned.loaded.garden, planned.loaded.catalogue, planned.climates, plan);
  return explain::changes(planned.loaded.garden, planned.loaded.catalogue, planned.climates,
                          replanning.earlier, plan);
}

std::string change_rows(const std::vector<explain::PlanChange>& changes,
                        const Replanning& replanning) {
  std::string text = fmt::format(
      "{:<10} {}\n", "done", counted(static_cast<int>(replanning.earlier.done.size()), "stand"));
  if (changes.empty()) return text + fmt::format("{:<10} nothing of what was to come\n", "changed");
  text += fmt::format("{:<10} {} to {} that were to come\n", "changed",
                      counted(static_cast<int>(changes.size()), "change"),
                      counted(static_cast<int>(replanning.earlier.ahead.size()), "stand"));
  for (std::size_t i = 0; i < changes.size(); ++i) {
    if (i == kMostRows) {
      text += fmt::format("{:<10} and {} more\n", "", changes.size() - i);
      break;
    }
    text += summary_row("", diagnostic::printable(change_text(changes[i], replanning)));
  }
  return text;
}

}  // namespace aftercrop::cli
