#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/climate/window.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using calendar::Date;
using catalogue::Ending;

constexpr int kDaysUnderTarp = 28;     // common practice: three to six weeks
constexpr int kLeastUnderTarp = 21;    // common practice
constexpr int kDaysWithoutHurry = 28;  // nothing follows: before weeds settle, common practice
constexpr const char* kNothingFollows = "nothing follows in this plan; later weeds settle";

struct EndWords {
  TaskKind kind;
  std::string title;
  std::string detail;
};

EndWords end_words(Ending ending, const std::string& name) {
  switch (ending) {
    case Ending::HarvestedPulled:
      return {TaskKind::Clear, fmt::format("Lift the last {} and clear the bed", name),
              "whole plants leave the bed, their leaves may stay on it"};
    case Ending::HarvestedCut:
      return {TaskKind::Cut, fmt::format("Cut {} off at the ground", name),
              "leave the roots in the soil; carry sick plants away"};
    case Ending::CutRootsLeft:
      return {TaskKind::Cut, fmt::format("Cut {} down, leave the roots", name),
              "do not pull; let the tops lie as mulch"};
    case Ending::Incorporated:
      return {TaskKind::ChopAndDigIn, fmt::format("Chop {} and dig it in at once", name),
              "chop small, mix into the top of a moist soil the same day"};
    case Ending::Mown:
      return {TaskKind::Cut, fmt::format("Mow {}", name), "let the tops lie as mulch"};
    case Ending::Tarped:
      return {TaskKind::Clear, fmt::format("Take the tarp off {}", name),
              "the dead tops lie as mulch, the roots stay"};
    case Ending::Winterkilled:
      return {TaskKind::FrostKills, fmt::format("{} is dead by now: let it lie", name),
              "if a mild winter has left it alive, cut it at the ground"};
    case Ending::Failed:
      break;
  }
  return {TaskKind::Clear, fmt::format("Clear the failed {}", name), {}};
}

/// Weeks until small seed may follow, and until plants may.
struct Wait {
  int seed = 0;
  int plants = 0;
};

Wait wait_after(const StandContext& context) {
  const catalogue::Crop& crop = context.crop();
  if (context.planting.ending != Ending::Incorporated) return {};
  if (crop.residue.known()) {
    const catalogue::ResidueClass& row = context.catalogue.residues[crop.residue.place()];
    return {row.incorporated, row.transplants};
  }
  if (crop.cover) return {crop.cover->wait_weeks[0], crop.cover->wait_weeks[2]};
  return {};
}

int wait_for(const StandContext& next, const Wait& wait) {
  return next.set_out() ? wait.plants : wait.seed;
}

/// The first day of the week in which a cover goes to seed or straw; empty where it does not, or
/// where frost ends it.
std::optional<Date> seed_day(const StandContext& context) {
  const catalogue::Crop& crop = context.crop();
  if (!crop.is_cover() || crop.perennial()) return {};
  if (context.planting.ending == Ending::Winterkilled) return {};
  const calendar::WeekSpan weeks = garden::weeks_of(context.planting);
  for (calendar::Week past = weeks.past; past < weeks.past + calendar::Weeks(26); ++past) {
    if (climate::cover_progress(crop, context.site, {weeks.first, past}).flower >
        context.site.coefficients().covers.seed_progress) {
      return calendar::monday(past).plus_days(-7);
    }
  }
  return {};
}

/// When the stand must be gone.
LatestDay latest_end(const StandContext& context, Date planned) {
  LatestDay latest{planned.plus_days(kDaysWithoutHurry), kNothingFollows};
  if (const auto follower = context.follower()) {
    const StandContext next{context.garden, context.catalogue, *context.next, context.site,
                            context.open};
    const int weeks = wait_for(next, wait_after(context));
    latest.day = follower->from.plus_days(-7 * weeks - 1);
    latest.why = weeks > 0 ? fmt::format("{} follows on {}, {} weeks of waiting between",
                                         follower->name, follower->from.text(), weeks)
                           : fmt::format("{} follows on {}", follower->name, follower->from.text());
  }
  const auto seed = seed_day(context);
  if (seed && *seed < latest.day) latest = {*seed, "later it goes to seed or straw"};
  return latest;
}

void add_waiting(const StandContext& context, std::vector<Task>& out) {
  const Wait wait = wait_after(context);
  if (wait.seed <= 0) return;
  const Date free = context.planting.to;
  const std::string detail = fmt::format(
      "{} weeks before small seed, {} before plants; large "
      "seed in between",
      wait.seed, wait.plants);
  const Date full = free.plus_days(7 * wait.seed - 1);
  const auto follower = context.follower();
  const Date day = std::max(follower ? std::min(full, follower->from) : full, free);
  const Task task =
      context.task(TaskKind::WaitUntil, day,
                   fmt::format("End of the wait after {}", context.crop_name()), detail);
  out.push_back(follower
                    ? until(task, {follower->from, fmt::format("{} follows then", follower->name)})
                    : until(task, {day, "the wait ends by itself; nothing follows"}));
}

/// The last day on which a stand can be picked.
LatestDay latest_picking(const StandContext& context, Date last) {
  LatestDay latest{last, "the stand is cleared after that"};
  const Date first = context.planting.harvest->first;
  const auto deadline =
      climate::harvest_deadline(context.crop(), context.site, calendar::week_of(first));
  if (const auto follower = context.follower()) {
    latest = {follower->from.plus_days(-1),
              fmt::format("{} follows on {}", follower->name, follower->from.text())};
  }
  if (deadline && calendar::monday(*deadline).plus_days(6) < latest.day) {
    latest = {calendar::monday(*deadline).plus_days(6), "frost is likely to end it"};
  }
  return latest;
}

void add_harvest(const StandContext& context, std::vector<Task>& out) {
  const garden::Planting& planting = context.planting;
  if (!planting.harvest) return;
  const std::string name = context.crop_name();
  const Date last = std::max(planting.harvest->first, planting.harvest->past.plus_days(-1));
  const Task begin =
      context.task(TaskKind::HarvestStart, planting.harvest->first,
                   fmt::format("Begin to harvest {}", name), fmt::format("until {}", last.text()));
  const LatestDay picking = latest_picking(context, last);
  Task first = until(
      begin, picking.day < last ? picking : LatestDay{last, "its harvest is planned to end then"});
  first.caution = cautions_at(catalogue::Moment::Harvest, context);
  out.push_back(std::move(first));
  out.push_back(until(
      context.task(TaskKind::HarvestEnd, last, fmt::format("Last harvest of {}", name)), picking));
}

void add_tarp(const StandContext& context, std::vector<Task>& out) {
  const garden::Planting& planting = context.planting;
  if (planting.ending != Ending::Tarped) return;
  const Date day = std::max(planting.from, planting.to.plus_days(-kDaysUnderTarp));
  const Task task =
      context.task(TaskKind::Cover, day, fmt::format("Cover {} with a tarp", context.crop_name()),
                   "dark and weighted at the edges; mow tall stands first");
  out.push_back(
      until(task, {planting.to.plus_days(-kLeastUnderTarp), "three weeks of dark are the least"}));
}

}  // namespace

void add_end(const StandContext& context, std::vector<Task>& out) {
  add_harvest(context, out);
  add_tarp(context, out);
  const garden::Planting& planting = context.planting;
  const Date last = std::max(planting.from, planting.to.plus_days(-1));
  const EndWords words = end_words(planting.ending, context.crop_name());
  Task end =
      until(context.task(words.kind, last, words.title, words.detail), latest_end(context, last));
  end.caution = cautions_at(catalogue::Moment::End, context);
  out.push_back(std::move(end));
  add_waiting(context, out);
}

}  // namespace aftercrop::emit
