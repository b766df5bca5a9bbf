#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "aftercrop/diagnostic/render.h"
#include "diagnostic/text.h"
#include "emit/calendar_rows.h"
#include "emit/ending_words.h"

namespace aftercrop::emit {
namespace {

constexpr int kWidth = 80;

/// The words folded to 80 columns, the first line after `head`, the others under it. A word that
/// is longer than a line is cut.
void add_folded(std::string& out, const std::string& head, std::string_view text) {
  const int indent = diagnostic::columns_of(head);
  const int room = std::max(20, kWidth - indent);
  std::string cut;
  int run = 0;
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    const int columns = diagnostic::columns_of(next.code);
    run = next.code == ' ' ? 0 : run + columns;
    if (run > room) {
      cut += ' ';
      run = columns;
    }
    cut.append(text.substr(at, next.bytes));
    at += next.bytes;
  }
  bool first = true;
  for (const std::string& line : diagnostic::fold(cut, room)) {
    out += first ? head : std::string(static_cast<std::size_t>(indent), ' ');
    out += line + '\n';
    first = false;
  }
  if (first) out += head + '\n';
}

void add_heading(std::string& out, const std::string& text) {
  add_folded(out, "", diagnostic::printable(text));
}

std::string stand_text(const garden::Planting& planting, const catalogue::Catalogue& catalogue) {
  std::string out = fmt::format("{} to {}  {}", planting.from.text(), planting.to.text(),
                                diagnostic::printable(catalogue.crop(planting.crop).name));
  for (const garden::Partner& partner : planting.partners) {
    out += fmt::format(" + {}", diagnostic::printable(catalogue.crop(partner.crop).name));
  }
  if (planting.harvest) {
    out += fmt::format(", harvest {} to {}", planting.harvest->first.text(),
                       planting.harvest->past.plus_days(-1).text());
  }
  return out + fmt::format("; {}", ending_words(planting.ending));
}

void add_beds(std::string& out, const CalendarInput& input) {
  out += "\nBEDS\n";
  garden::BedId bed;
  for (const garden::Planting* planting : chosen_plantings(input)) {
    if (planting->bed != bed) {
      bed = planting->bed;
      out += '\n';
      add_heading(out, input.garden.bed(bed).name);
    }
    add_folded(out, "  ", stand_text(*planting, input.catalogue));
  }
}

/// Writes tasks week by week; a long caution is said in full once and pointed at later.
class TaskList {
 public:
  explicit TaskList(const CalendarInput& input) : input_(&input) {}

  void add(const Task& task, std::string& out) {
    const calendar::Week week = calendar::week_of(task.date);
    if (week != week_) {
      week_ = week;
      out += fmt::format("\n{}, from Monday {}\n", calendar::text(week),
                         calendar::monday(week).text());
    }
    static constexpr const char* kDays[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    const std::string head =
        fmt::format("  [ ] {} {:02}  ", kDays[task.date.weekday() - 1], task.date.day());
    const std::string text = fmt::format("{}: {}", input_->garden.bed(task.bed).name, task.title);
    add_folded(out, head, diagnostic::printable(text));
    const std::string indent(head.size(), ' ');
    if (!task.detail.empty()) add_folded(out, indent, diagnostic::printable(task.detail));
    const std::string latest =
        fmt::format("latest {}: {}", task.latest.text(), diagnostic::printable(task.latest_why));
    add_folded(out, indent, latest);
    if (!task.caution.empty()) add_folded(out, indent, caution(task, week));
  }

 private:
  std::string caution(const Task& task, calendar::Week week) {
    const auto [said, is_new] = said_.try_emplace(task.caution, week);
    if (is_new) return "CAUTION: " + diagnostic::printable(task.caution);
    return fmt::format("CAUTION: as said in {}", calendar::text(said->second));
  }

  const CalendarInput* input_;
  calendar::Week week_{-1000000};
  std::map<std::string, calendar::Week> said_;
};

void add_orders(std::string& out, const CalendarInput& input) {
  const auto days = orders_by_day(input);
  if (days.empty()) return;
  out += "\nTO ORDER (with a margin for losses)\n";
  for (const auto& [day, lines] : days) {
    out += fmt::format("\n  needed in {}, from {}\n", calendar::text(calendar::week_of(day)),
                       day.text());
    for (const OrderLine* line : lines) {
      add_folded(out, "  [ ] ", diagnostic::printable(order_text(*line, input.garden.units)));
    }
  }
}

}  // namespace

std::string calendar_txt(const CalendarInput& input) {
  std::string out;
  add_heading(out, input.garden.name);
  out += fmt::format("{} to {}\n", calendar::monday(input.garden.seasons.first).text(),
                     calendar::monday(input.garden.seasons.past).plus_days(-1).text());
  add_beds(out, input);
  out += "\nWEEK BY WEEK\n";
  TaskList list(input);
  for (const Task* task : chosen_tasks(input)) list.add(*task, out);
  add_orders(out, input);
  return out;
}

}  // namespace aftercrop::emit
