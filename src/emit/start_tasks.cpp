#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "aftercrop/climate/window.h"
#include "aftercrop/rules/window_words.h"
#include "emit/amounts.h"
#include "emit/latest_start.h"
#include "emit/seed.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using catalogue::Ending;
using catalogue::Start;

constexpr int kDaysToThinning = 21;  // common practice
constexpr int kDaysToSupport = 14;   // common practice
constexpr int kDaysOfGrace = 14;     // common practice: thinning, supports, fleece

std::string spacing(const catalogue::Crop& crop, garden::UnitSystem units) {
  if (crop.in_row_cm <= 0.0 || crop.between_row_cm <= 0.0) return {};
  std::string out = fmt::format("{} apart in rows {} apart", length_text(crop.in_row_cm, units),
                                length_text(crop.between_row_cm, units));
  if (crop.depth_cm > 0.0 && !crop.transplanted()) {
    out += fmt::format(", {} deep", length_text(crop.depth_cm, units));
  }
  return out;
}

std::string stock_text(const Stock& stock, garden::UnitSystem units) {
  if (!(stock.amount > 0.0)) return {};
  if (stock.unit == "g") {
    const std::string mass = seed_mass_text(stock.amount / 1000.0, units);
    if (stock.seeds < 1.0) return fmt::format("{} of {}", mass, stock.what);
    const std::string seeds =
        stock.seeds < 10.0 ? fmt::format("{:.0f}", stock.seeds) : two_digits(stock.seeds);
    return fmt::format("{} of {} (about {} seed{})", mass, stock.what, seeds,
                       seeds == "1" ? "" : "s");
  }
  return fmt::format("{:.0f} {}", stock.amount, stock.what);
}

void add_sentence(std::string& out, const std::string& sentence) {
  if (sentence.empty()) return;
  if (!out.empty()) out += "; ";
  out += sentence;
}

std::string partners(const StandContext& context) {
  static constexpr std::array<std::string_view, 4> kPlaces = {"along the edge", "in the row",
                                                              "between the rows", "around the bed"};
  std::string out;
  for (const garden::Partner& partner : context.planting.partners) {
    add_sentence(out, fmt::format("with {} {}", context.catalogue.crop(partner.crop).name,
                                  kPlaces[static_cast<std::size_t>(partner.at)]));
  }
  return out;
}

std::string cultivar(const StandContext& context) {
  return rules::cultivar_words(context.crop(), context.site,
                               calendar::week_of(context.planting.from));
}

std::string start_detail(const StandContext& context) {
  const garden::UnitSystem units = context.garden.units;
  const catalogue::Crop& crop = context.crop();
  std::string out;
  if (!crop.is_cover()) add_sentence(out, spacing(crop, units));
  const bool raised = context.planting.raised.has_value();
  if (!raised) {
    add_sentence(out, cultivar(context));
    for (const Stock& stock : stocks_for(context.catalogue, crop, context.bed(), 1.0, false)) {
      add_sentence(out, stock_text(stock, units));
    }
  }
  if (raised) {
    const double plants = stations(crop, context.bed());
    if (plants > 0.0) add_sentence(out, fmt::format("{:.0f} plants", plants));
  }
  add_sentence(out, partners(context));
  return out;
}

std::string start_title(const StandContext& context) {
  const std::string name = context.crop_name();
  if (context.set_out()) return fmt::format("Plant out {}", name);
  switch (context.crop().start) {
    case Start::Set:
      return fmt::format("Plant {} sets", name);
    case Start::Clove:
      return fmt::format("Plant {} cloves", name);
    case Start::Tuber:
      return fmt::format("Plant {} tubers", name);
    case Start::RootCutting:
      return fmt::format("Plant {} root cuttings", name);
    default:
      return fmt::format("Sow {}", name);
  }
}

/// A seed bed under the mulch of what stood before.
void add_preparing(const StandContext& context, const LatestDay& latest, std::vector<Task>& out) {
  if (context.previous == nullptr || context.set_out()) return;
  const Ending ending = context.previous->ending;
  const bool mulch = ending == Ending::CutRootsLeft || ending == Ending::Mown ||
                     ending == Ending::Tarped || ending == Ending::Winterkilled;
  if (!mulch) return;
  const calendar::Date day = std::max(context.planting.from.plus_days(-1),
                                      std::min(context.previous->to, context.planting.from));
  const std::string name = context.crop_name();
  const Task task =
      context.task(TaskKind::Prepare, day, fmt::format("Draw rows for {}", name),
                   fmt::format("rake the mulch of {} aside and loosen only the rows",
                               short_name(context.catalogue.crop(context.previous->crop))));
  out.push_back(until(task, {latest.day, fmt::format("{} must be in the ground by then", name)}));
}

void add_raising(const StandContext& context, const LatestDay& latest, std::vector<Task>& out) {
  if (!context.planting.raised) return;
  const catalogue::Crop& crop = context.crop();
  std::string detail = stock_text(stock_for(crop, context.bed(), 1.0, true), context.garden.units);
  add_sentence(detail, cultivar(context));
  add_sentence(detail, fmt::format("to plant out on {}", context.planting.from.text()));
  const Task task = context.task(TaskKind::SowUnderCover, *context.planting.raised,
                                 fmt::format("Sow {} under cover", context.crop_name()), detail);
  const int slack = calendar::days_between(context.planting.from, latest.day);
  out.push_back(until(
      task, {context.planting.raised->plus_days(slack),
             fmt::format("it must be planted out by {}: {}", latest.day.text(), latest.why)}));
}

void add_thinning(const StandContext& context, calendar::Date end, std::vector<Task>& out) {
  const catalogue::Crop& crop = context.crop();
  const calendar::Date day = context.planting.from.plus_days(kDaysToThinning);
  const bool thick = !crop.is_cover() && !context.set_out() && crop.in_row_cm >= 3.0 &&
                     crop.seed_mass_mg > 0.0 &&
                     (crop.seed_class == catalogue::SeedClass::Small ||
                      crop.seed_class == catalogue::SeedClass::Medium);
  if (!thick || day >= end) return;
  const Task task =
      context.task(TaskKind::Thin, day, fmt::format("Thin {}", context.crop_name()),
                   fmt::format("to {} apart", length_text(crop.in_row_cm, context.garden.units)));
  out.push_back(until(task, {std::min(day.plus_days(kDaysOfGrace), end),
                             "crowded seedlings stay small after that"}));
}

void add_support(const StandContext& context, calendar::Date end, std::vector<Task>& out) {
  const catalogue::Crop& crop = context.crop();
  const calendar::Date day = context.planting.from.plus_days(kDaysToSupport);
  if (crop.support.empty() || day >= end) return;
  const Task task = context.task(TaskKind::Support, day,
                                 fmt::format("Put up supports for {}", context.crop_name()),
                                 garden::prose_text(crop.support, context.garden.units));
  out.push_back(until(task, {std::min(day.plus_days(kDaysOfGrace), end),
                             "later the plants lie on the ground and break"}));
}

/// The first week in which the crop may stand without its cover; its end where there is none.
calendar::Date uncover_day(const StandContext& context) {
  const calendar::WeekSpan weeks = garden::weeks_of(context.planting);
  for (calendar::Week week = weeks.first; week < weeks.past; ++week) {
    if (climate::judge_start(context.crop(), context.open, week).open()) {
      return std::max(context.planting.from, calendar::monday(week));
    }
  }
  return std::max(context.planting.from, context.planting.to.plus_days(-1));
}

void add_fleece(const StandContext& context, std::vector<Task>& out) {
  if (context.bed().shelter != garden::Shelter::Fleece) return;
  const garden::Planting& planting = context.planting;
  const std::string name = context.crop_name();
  const calendar::Date off = uncover_day(context);
  if (off <= planting.from) return;  // warm enough without
  const Task cover =
      context.task(TaskKind::Cover, planting.from, fmt::format("Cover {} with fleece", name),
                   "edges weighted down, loose enough to grow under");
  out.push_back(until(cover, {planting.from, "its dates count on the cover from the first day"}));
  const Task task =
      context.task(TaskKind::Uncover, off, fmt::format("Take the fleece off {}", name),
                   "on a dull, still day; keep it at hand while nights are cold");
  out.push_back(until(task, {std::min(off.plus_days(kDaysOfGrace), planting.to),
                             "later it grows soft, too warm, and bees do not get in"}));
}

}  // namespace

void add_start(const StandContext& context, std::vector<Task>& out) {
  const garden::Planting& planting = context.planting;
  const LatestDay latest = latest_start(planting, context.crop(), context.site, context.follower());
  add_raising(context, latest, out);
  add_preparing(context, latest, out);
  const TaskKind kind = context.set_out() ? TaskKind::PlantOut : TaskKind::Sow;
  Task start =
      until(context.task(kind, planting.from, start_title(context), start_detail(context)), latest);
  start.caution = cautions_at(catalogue::Moment::Start, context);
  out.push_back(std::move(start));
  const calendar::Date end = planting.harvest ? planting.harvest->first : planting.to;
  add_fleece(context, out);
  add_thinning(context, end, out);
  add_support(context, end, out);
  add_watching(context, out);
}

}  // namespace aftercrop::emit
