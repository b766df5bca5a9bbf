#include <array>

#include "aftercrop/diagnostic/render.h"
#include "emit/calendar_rows.h"

namespace aftercrop::emit {
namespace {

constexpr std::string_view kLineEnd = "\r\n";

/// A text cell: no control characters; an apostrophe keeps a spreadsheet from reading a formula.
std::string cell(std::string_view typed) {
  std::string text = diagnostic::printable(typed);
  constexpr std::string_view kFormulaStarts = "=+-@";
  const bool formula = !typed.empty() && (kFormulaStarts.find(typed.front()) != std::string::npos ||
                                          typed.front() == '\t' || typed.front() == '\r');
  if (formula) text.insert(text.begin(), '\'');
  if (text.find_first_of("\",;\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string line(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) out += ',';
    out += cell(cells[i]);
  }
  out += kLineEnd;
  return out;
}

std::string week_text(calendar::Date day) { return calendar::text(calendar::week_of(day)); }

std::string task_line(const Task& task, const CalendarInput& input) {
  const std::string crop = task.crop.known() ? input.catalogue.crop(task.crop).name : "";
  return line({task.date.text(), week_text(task.date), task.latest.text(), task.latest_why,
               std::string(name(task.kind)), input.garden.bed(task.bed).name, crop, task.title,
               task.detail, task.caution, task.uid});
}

std::string task_lines(const CalendarInput& input) {
  std::string out = line({"date", "week", "latest", "latest_why", "kind", "bed", "crop", "title",
                          "detail", "caution", "uid"});
  for (const Task* task : chosen_tasks(input)) out += task_line(*task, input);
  for (const auto& [day, lines] : orders_by_day(input)) {
    for (const OrderLine* order : lines) {
      out += line({day.text(), week_text(day), day.text(), kOrderWhy,
                   std::string(name(TaskKind::Order)), "", "",
                   order_text(*order, input.garden.units), "", "", order_uid(input.garden, day)});
    }
  }
  return out;
}

std::string planting_line(const garden::Planting& planting, const CalendarInput& input) {
  static constexpr std::array<const char*, 3> kResistance = {"", "tolerant", "resistant"};
  const catalogue::Crop& crop = input.catalogue.crop(planting.crop);
  std::string partners;
  for (const garden::Partner& partner : planting.partners) {
    if (!partners.empty()) partners += ", ";
    partners += input.catalogue.crop(partner.crop).id;
  }
  return line({input.garden.bed(planting.bed).name, crop.id, crop.name,
               planting.raised ? planting.raised->text() : "", planting.from.text(),
               week_text(planting.from), planting.harvest ? planting.harvest->first.text() : "",
               planting.harvest ? planting.harvest->past.text() : "", planting.to.text(),
               std::string(catalogue::name(planting.ending)),
               kResistance[static_cast<std::size_t>(planting.resistance)], partners});
}

}  // namespace

std::string calendar_csv(const CalendarInput& input, bool plantings) {
  if (!plantings) return task_lines(input);
  std::string out = line({"bed", "crop", "name", "raised", "from", "week", "harvest_from",
                          "harvest_to", "to", "ending", "resistance", "partners"});
  for (const garden::Planting* planting : chosen_plantings(input)) {
    out += planting_line(*planting, input);
  }
  return out;
}

}  // namespace aftercrop::emit
