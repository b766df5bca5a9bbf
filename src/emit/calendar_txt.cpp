#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

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

/// Tasks of one day that differ in their beds alone.
struct Alike {
  const Task* task = nullptr;
  std::vector<std::string> beds;
};

bool same_work(const Task& a, const Task& b) {
  return a.date == b.date && a.title == b.title && a.detail == b.detail && a.latest == b.latest &&
         a.latest_why == b.latest_why && a.caution == b.caution;
}

/// In the order of their first beds; `tasks` come by day.
std::vector<Alike> gathered(const std::vector<const Task*>& tasks, const garden::Garden& garden) {
  std::vector<Alike> rows;
  std::size_t day = 0;  // the first row of this day
  for (const Task* task : tasks) {
    if (rows.empty() || rows.back().task->date != task->date) day = rows.size();
    const auto known = std::find_if(rows.begin() + static_cast<std::ptrdiff_t>(day), rows.end(),
                                    [&](const Alike& row) { return same_work(*row.task, *task); });
    Alike& row = known != rows.end() ? *known : rows.emplace_back(Alike{task, {}});
    row.beds.push_back(garden.bed(task->bed).name);
  }
  return rows;
}

/// The number that a name ends in, and what stands before it.
std::pair<std::string, int> numbered(const std::string& name) {
  const std::size_t last = name.find_last_not_of("0123456789");
  const std::size_t digits = last == std::string::npos ? 0 : last + 1;
  if (digits == name.size() || name.size() - digits > 6) return {name, -1};
  return {name.substr(0, digits), std::stoi(name.substr(digits))};
}

/// "B1", "N1.2, N2.1", "B3..B9, B12", as ranges are written in a garden.
std::string beds_text(const std::vector<std::string>& beds) {
  constexpr std::size_t kRange = 3;
  std::string text;
  for (std::size_t i = 0; i < beds.size();) {
    std::size_t past = i + 1;
    const auto [stem, first] = numbered(beds[i]);
    while (past < beds.size() && first >= 0 &&
           numbered(beds[past]) == std::pair(stem, first + static_cast<int>(past - i))) {
      ++past;
    }
    if (past - i < kRange) past = i + 1;
    text += text.empty() ? "" : ", ";
    text += past - i > 1 ? beds[i] + ".." + beds[past - 1] : beds[i];
    i = past;
  }
  return beds.size() > 1 ? text + ", each" : text;
}

/// Writes tasks week by week; a long caution is said in full once and pointed at later.
class TaskList {
 public:
  void add(const Alike& row, std::string& out) {
    const Task& task = *row.task;
    const calendar::Week week = calendar::week_of(task.date);
    if (week != week_) {
      week_ = week;
      out += fmt::format("\n{}, from Monday {}\n", calendar::text(week),
                         calendar::monday(week).text());
    }
    static constexpr const char* kDays[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    const std::string head =
        fmt::format("  [ ] {} {:02}  ", kDays[task.date.weekday() - 1], task.date.day());
    const std::string text = fmt::format("{}: {}", beds_text(row.beds), task.title);
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
  TaskList list;
  for (const Alike& row : gathered(chosen_tasks(input), input.garden)) list.add(row, out);
  add_orders(out, input);
  return out;
}

}  // namespace aftercrop::emit
