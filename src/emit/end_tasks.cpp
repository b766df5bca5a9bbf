#include <fmt/format.h>

#include <algorithm>

#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using calendar::Date;
using catalogue::Ending;

constexpr int kDaysUnderTarp = 28;  // common practice: three to six weeks

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

void add_waiting(const StandContext& context, std::vector<Task>& out) {
  const Wait wait = wait_after(context);
  if (wait.seed <= 0) return;
  const Date free = context.planting.to;
  const std::string detail = fmt::format(
      "{} weeks before small seed, {} before plants; large "
      "seed in between",
      wait.seed, wait.plants);
  const Date full = free.plus_days(7 * wait.seed - 1);
  const Date last = context.next != nullptr ? std::min(full, context.next->from) : full;
  out.push_back(context.task(TaskKind::WaitUntil, std::max(last, free),
                             fmt::format("End of the wait after {}", context.crop_name()), detail));
}

void add_harvest(const StandContext& context, std::vector<Task>& out) {
  const garden::Planting& planting = context.planting;
  if (!planting.harvest) return;
  const std::string name = context.crop_name();
  const Date last = std::max(planting.harvest->first, planting.harvest->past.plus_days(-1));
  Task first =
      context.task(TaskKind::HarvestStart, planting.harvest->first,
                   fmt::format("Begin to harvest {}", name), fmt::format("until {}", last.text()));
  first.caution = cautions_at(Moment::Harvest, context);
  out.push_back(std::move(first));
  out.push_back(context.task(TaskKind::HarvestEnd, last, fmt::format("Last harvest of {}", name)));
}

}  // namespace

void add_end(const StandContext& context, std::vector<Task>& out) {
  add_harvest(context, out);
  const garden::Planting& planting = context.planting;
  const Date last = std::max(planting.from, planting.to.plus_days(-1));
  const std::string name = context.crop_name();
  if (planting.ending == Ending::Tarped) {
    out.push_back(context.task(TaskKind::Cover,
                               std::max(planting.from, planting.to.plus_days(-kDaysUnderTarp)),
                               fmt::format("Cover {} with a tarp", name),
                               "dark and weighted at the edges; mow tall stands first"));
  }
  const EndWords words = end_words(planting.ending, name);
  Task end = context.task(words.kind, last, words.title, words.detail);
  end.caution = cautions_at(Moment::End, context);
  out.push_back(std::move(end));
  add_waiting(context, out);
}

}  // namespace aftercrop::emit
