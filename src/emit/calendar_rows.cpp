#include "emit/calendar_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "emit/amounts.h"
#include "emit/fingerprint.h"

namespace aftercrop::emit {
namespace {

std::vector<bool> asked_for(const CalendarInput& input) {
  std::vector<bool> chosen(input.garden.beds.size(), input.bed.empty());
  if (input.bed.empty()) return chosen;
  for (const garden::BedId bed : input.garden.find(input.bed)) chosen[bed.place()] = true;
  return chosen;
}

}  // namespace

std::vector<garden::BedId> chosen_beds(const CalendarInput& input) {
  if (!input.bed.empty()) return input.garden.find(input.bed);
  std::vector<garden::BedId> beds;
  for (std::size_t i = 0; i < input.garden.beds.size(); ++i) beds.emplace_back(i);
  return beds;
}

std::vector<const Task*> chosen_tasks(const CalendarInput& input) {
  const std::vector<bool> chosen = asked_for(input);
  std::vector<const Task*> rows;
  for (const Task& task : input.tasks) {
    if (chosen[task.bed.place()]) rows.push_back(&task);
  }
  return rows;
}

std::vector<const garden::Planting*> chosen_plantings(const CalendarInput& input) {
  const std::vector<bool> chosen = asked_for(input);
  std::vector<const garden::Planting*> rows;
  for (const garden::Planting& planting : input.plan.plantings) {
    if (chosen[planting.bed.place()]) rows.push_back(&planting);
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const garden::Planting* a, const garden::Planting* b) {
                     return std::tie(a->bed, a->from) < std::tie(b->bed, b->from);
                   });
  return rows;
}

std::map<StartKey, const Task*> start_tasks(const std::vector<Task>& tasks) {
  std::map<StartKey, const Task*> starts;
  for (const Task& task : tasks) {
    if (task.kind != TaskKind::Sow && task.kind != TaskKind::PlantOut) continue;
    starts.emplace(StartKey{task.bed, task.crop, task.date}, &task);
  }
  return starts;
}

std::string order_text(const OrderLine& line, garden::UnitSystem units) {
  if (line.unit == "g")
    return fmt::format("{} {}", seed_mass_text(line.amount / 1000.0, units), line.what);
  if (line.unit == "kg") return fmt::format("{} {}", mass_text(line.amount, units), line.what);
  return fmt::format("{:.0f} {}{}{}", line.amount, line.unit, line.unit.empty() ? "" : " ",
                     line.what);
}

std::map<calendar::Date, std::vector<const OrderLine*>> orders_by_day(const CalendarInput& input) {
  std::map<calendar::Date, std::vector<const OrderLine*>> days;
  if (!input.bed.empty()) return days;
  for (const OrderLine& line : input.order) days[line.needed_by].push_back(&line);
  return days;
}

std::string order_uid(const garden::Garden& garden, calendar::Date day) {
  return fmt::format("order-{:016x}@aftercrop",
                     fingerprint(fmt::format("{}\x1F{}", garden.name, day.text())));
}

}  // namespace aftercrop::emit
