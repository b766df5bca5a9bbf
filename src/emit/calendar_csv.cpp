#include <array>

#include "emit/calendar_rows.h"
#include "emit/csv.h"

namespace aftercrop::emit {
namespace {

std::string week_text(calendar::Date day) { return calendar::text(calendar::week_of(day)); }

std::string task_line(const Task& task, const CalendarInput& input) {
  const std::string crop = task.crop.known() ? input.catalogue.crop(task.crop).name : "";
  return csv_line({task.date.text(), week_text(task.date), task.latest.text(), task.latest_why,
                   std::string(name(task.kind)), input.garden.bed(task.bed).name, crop, task.title,
                   task.detail, task.caution, task.uid});
}

std::string task_lines(const CalendarInput& input) {
  std::string out = csv_line({"date", "week", "latest", "latest_why", "kind", "bed", "crop",
                              "title", "detail", "caution", "uid"});
  for (const Task* task : chosen_tasks(input)) out += task_line(*task, input);
  for (const auto& [day, lines] : orders_by_day(input)) {
    for (const OrderLine* order : lines) {
      out += csv_line(
          {day.text(), week_text(day), day.text(), kOrderWhy, std::string(name(TaskKind::Order)),
           "", "", order_text(*order, input.garden.units), "", "", order_uid(input.garden, day)});
    }
  }
  return out;
}

/// `start` is null for a stand that began before the seasons.
std::string planting_line(const garden::Planting& planting, const Task* start,
                          const CalendarInput& input) {
  static constexpr std::array<const char*, 3> kResistance = {"", "tolerant", "resistant"};
  const catalogue::Crop& crop = input.catalogue.crop(planting.crop);
  std::string partners;
  for (const garden::Partner& partner : planting.partners) {
    if (!partners.empty()) partners += ", ";
    partners += input.catalogue.crop(partner.crop).id;
  }
  return csv_line({input.garden.bed(planting.bed).name, crop.id, crop.name,
                   planting.raised ? planting.raised->text() : "", planting.from.text(),
                   week_text(planting.from), planting.harvest ? planting.harvest->first.text() : "",
                   planting.harvest ? planting.harvest->past.text() : "", planting.to.text(),
                   std::string(catalogue::name(planting.ending)),
                   kResistance[static_cast<std::size_t>(planting.resistance)], partners,
                   start == nullptr ? "" : start->latest.text(),
                   start == nullptr ? "" : start->latest_why});
}

}  // namespace

std::string calendar_csv(const CalendarInput& input, bool plantings) {
  if (!plantings) return task_lines(input);
  std::string out =
      csv_line({"bed", "crop", "name", "raised", "from", "week", "harvest_from", "harvest_to", "to",
                "ending", "resistance", "partners", "latest_start", "latest_why"});
  const auto starts = start_tasks(input.tasks);
  for (const garden::Planting* planting : chosen_plantings(input)) {
    const auto start = starts.find({planting->bed, planting->crop, planting->from});
    out += planting_line(*planting, start == starts.end() ? nullptr : start->second, input);
  }
  return out;
}

}  // namespace aftercrop::emit
