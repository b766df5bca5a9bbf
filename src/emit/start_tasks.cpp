#include <fmt/format.h>

#include <algorithm>
#include <array>

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

/// Crops that want stakes, strings or netting (common practice).
constexpr std::array<std::string_view, 8> kClimbers = {"tomato",    "tomato-cherry", "cucumber",
                                                       "pole-bean", "runner-bean",   "pea-shell",
                                                       "pea-snap",  "pea-snow"};

bool set_out(const StandContext& context) {
  return context.planting.raised.has_value() || context.crop().transplanted();
}

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
  if (stock.unit == "g")
    return fmt::format("{} of {}", mass_text(stock.amount / 1000.0, units), stock.what);
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

std::string start_detail(const StandContext& context) {
  const garden::UnitSystem units = context.garden.units;
  const catalogue::Crop& crop = context.crop();
  std::string out;
  if (!crop.is_cover()) add_sentence(out, spacing(crop, units));
  const bool raised = context.planting.raised.has_value();
  if (!raised) add_sentence(out, stock_text(stock_for(crop, context.bed(), 1.0, false), units));
  if (raised) {
    const double plants = stations(crop, context.bed());
    if (plants > 0.0) add_sentence(out, fmt::format("{:.0f} plants", plants));
  }
  add_sentence(out, partners(context));
  return out;
}

std::string start_title(const StandContext& context) {
  const std::string name = context.crop_name();
  if (set_out(context)) return fmt::format("Plant out {}", name);
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
void add_preparing(const StandContext& context, std::vector<Task>& out) {
  if (context.previous == nullptr || set_out(context)) return;
  const Ending ending = context.previous->ending;
  const bool mulch = ending == Ending::CutRootsLeft || ending == Ending::Mown ||
                     ending == Ending::Tarped || ending == Ending::Winterkilled;
  if (!mulch) return;
  const calendar::Date day = std::max(context.planting.from.plus_days(-1),
                                      std::min(context.previous->to, context.planting.from));
  out.push_back(
      context.task(TaskKind::Prepare, day, fmt::format("Draw rows for {}", context.crop_name()),
                   fmt::format("rake the mulch of {} aside and loosen only the rows",
                               short_name(context.catalogue.crop(context.previous->crop)))));
}

void add_raising(const StandContext& context, std::vector<Task>& out) {
  if (!context.planting.raised) return;
  const catalogue::Crop& crop = context.crop();
  std::string detail = stock_text(stock_for(crop, context.bed(), 1.0, true), context.garden.units);
  add_sentence(detail, fmt::format("to plant out on {}", context.planting.from.text()));
  out.push_back(context.task(TaskKind::SowUnderCover, *context.planting.raised,
                             fmt::format("Sow {} under cover", context.crop_name()), detail));
}

void add_aftercare(const StandContext& context, std::vector<Task>& out) {
  const catalogue::Crop& crop = context.crop();
  const garden::Planting& planting = context.planting;
  const calendar::Date thinning = planting.from.plus_days(kDaysToThinning);
  const bool thick = !crop.is_cover() && !set_out(context) && crop.in_row_cm >= 3.0 &&
                     crop.seed_mass_mg > 0.0 &&
                     (crop.seed_class == catalogue::SeedClass::Small ||
                      crop.seed_class == catalogue::SeedClass::Medium);
  const calendar::Date end = planting.harvest ? planting.harvest->first : planting.to;
  if (thick && thinning < end) {
    out.push_back(context.task(
        TaskKind::Thin, thinning, fmt::format("Thin {}", context.crop_name()),
        fmt::format("to {} apart", length_text(crop.in_row_cm, context.garden.units))));
  }
  const bool climbs = std::find(kClimbers.begin(), kClimbers.end(), crop.id) != kClimbers.end();
  const calendar::Date support = planting.from.plus_days(kDaysToSupport);
  if (climbs && support < end) {
    out.push_back(
        context.task(TaskKind::Support, support, fmt::format("Put up supports for {}", crop.name)));
  }
}

}  // namespace

void add_start(const StandContext& context, std::vector<Task>& out) {
  add_raising(context, out);
  add_preparing(context, out);
  const TaskKind kind = set_out(context) ? TaskKind::PlantOut : TaskKind::Sow;
  Task start =
      context.task(kind, context.planting.from, start_title(context), start_detail(context));
  std::optional<calendar::Date> next;
  if (context.next != nullptr) next = context.next->from;
  start.latest = latest_start(context.planting, context.crop(), context.site, next);
  if (start.latest && *start.latest < start.date) start.latest.reset();
  start.caution = cautions_at(Moment::Start, context);
  out.push_back(std::move(start));
  if (context.bed().shelter == garden::Shelter::Fleece) {
    out.push_back(context.task(TaskKind::Cover, context.planting.from,
                               fmt::format("Cover {} with fleece", context.crop_name())));
  }
  add_aftercare(context, out);
}

}  // namespace aftercrop::emit
