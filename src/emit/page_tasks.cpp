#include <fmt/format.h>

#include <array>
#include <set>

#include "emit/markup.h"
#include "emit/page_parts.h"

namespace aftercrop::emit {
namespace {

constexpr std::array<const char*, 7> kDays = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/// "week 13" and its days.
std::string week_heading(calendar::Week week) {
  const calendar::IsoWeek iso = calendar::iso(week);
  const calendar::Date monday = calendar::monday(week);
  return fmt::format("{} <small>{} week {}</small>", spoken_span(monday, monday.plus_days(6)),
                     iso.year, iso.number);
}

std::string option(const std::string& value, const std::string& text) {
  return fmt::format("<option value=\"{}\">{}</option>", value, text);
}

std::string filters(const PageContext& page) {
  std::string beds = option("", "all beds");
  for (const BedStands& bed : page.beds) {
    beds += option(fmt::format("{}", bed.bed.place()), markup(page.bed(bed.bed).name));
  }
  std::set<TaskKind> used;
  std::set<int> in_years;
  for (const Task* task : page.tasks) {
    used.insert(task->kind);
    in_years.insert(calendar::iso(calendar::week_of(task->date)).year);
  }
  std::string years = option("", "all years");
  for (const int year : in_years) years += option(fmt::format("{}", year), fmt::format("{}", year));
  std::string kinds = option("", "all kinds");
  for (const TaskKind kind : used) {
    kinds += option(std::string(name(kind)), std::string(label(kind)));
  }
  return fmt::format(
      "<div class=\"filters script\" id=\"filters\" hidden>\n"
      "<label>Year <select id=\"pick-year\">{}</select></label>\n"
      "<label>Bed <select id=\"pick-bed\">{}</select></label>\n"
      "<label>Kind <select id=\"pick-kind\">{}</select></label>\n"
      "<label class=\"tick\"><input type=\"checkbox\" id=\"hide-done\"> hide what is done</label>\n"
      "<p role=\"status\" id=\"shown\"></p>\n</div>\n",
      years, beds, kinds);
}

}  // namespace

std::string task_item(const PageContext& page, const Task& task) {
  std::string out = fmt::format(
      "<li data-kind=\"{}\" data-bed=\"{}\"><label><input type=\"checkbox\" data-uid=\"{}\"> "
      "<b dir=\"auto\">{}</b> {}</label>",
      name(task.kind), task.bed.place(), task.uid, markup(page.bed(task.bed).name),
      markup(task.title));
  out += fmt::format("<p>{} {}{}</p>", kDays[static_cast<std::size_t>(task.date.weekday() - 1)],
                     spoken_day(task.date),
                     task.detail.empty() ? "" : "; " + prose_markup(task.detail));
  if (task.latest > task.date) {
    out += fmt::format("<p class=\"latest\">until {} at the latest: {}</p>",
                       spoken_date(task.latest), prose_markup(task.latest_why));
  } else {
    out += fmt::format("<p class=\"latest\">not later: {}</p>", prose_markup(task.latest_why));
  }
  if (!task.caution.empty()) out += page.cautions.short_markup(task.caution);
  return out + "</li>\n";
}

std::string tasks_section(const PageContext& page) {
  std::string out = "<section id=\"tasks\"><h2>All tasks, week by week</h2>\n" + filters(page);
  calendar::Week week{-1000000};
  bool open = false;
  for (const Task* task : page.tasks) {
    if (calendar::week_of(task->date) != week) {
      week = calendar::week_of(task->date);
      if (open) out += "</ul></section>\n";
      open = true;
      out += fmt::format("<section class=\"week\" id=\"w{0}\" data-year=\"{2}\"><h3>{1}</h3><ul>\n",
                         week.serial(), week_heading(week), calendar::iso(week).year);
    }
    out += task_item(page, *task);
  }
  if (open) out += "</ul></section>\n";
  return out + "</section>\n";
}

CautionBook::CautionBook(const std::vector<const Task*>& tasks) {
  for (const Task* task : tasks) {
    if (task->caution.empty()) continue;
    if (places_.try_emplace(task->caution, texts_.size() + 1).second) {
      texts_.push_back(task->caution);
    }
  }
}

std::string CautionBook::short_markup(const std::string& caution) const {
  const std::size_t stop = caution.find(". ");
  const std::string first = caution.substr(0, stop == std::string::npos ? stop : stop + 1);
  std::string out = "<p class=\"caution\"><strong>Caution:</strong> " + markup(first);
  const auto place = places_.find(caution);
  if (first.size() < caution.size() && place != places_.end()) {
    out += fmt::format(" <a href=\"#caution{0}\">Caution {0} in full</a>", place->second);
  }
  return out + "</p>";
}

std::string CautionBook::section() const {
  if (texts_.empty()) return {};
  std::string out = "<section id=\"cautions\"><h2>Cautions in full</h2>\n<ol>\n";
  for (std::size_t i = 0; i < texts_.size(); ++i) {
    out += fmt::format("<li id=\"caution{}\">{}</li>\n", i + 1, markup(texts_[i]));
  }
  return out + "</ol></section>\n";
}

}  // namespace aftercrop::emit
