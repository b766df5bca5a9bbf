#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercrop/emit/page.h"
#include "emit/calendar_rows.h"
#include "emit/fingerprint.h"
#include "emit/markup.h"
#include "emit/page/page_text.h"
#include "emit/page_parts.h"

namespace aftercrop::emit {
namespace {

/// The week of `as_of`, held within the picture; else the first that has a task.
calendar::Week week_shown(const PageInput& input, const std::vector<const Task*>& tasks,
                          calendar::WeekSpan weeks) {
  calendar::Week week = weeks.first;
  if (!tasks.empty()) week = calendar::week_of(tasks.front()->date);
  if (input.as_of) week = calendar::week_of(*input.as_of);
  return std::clamp(week, weeks.first, weeks.past - calendar::Weeks(1));
}

std::string head(const PageInput& input, const FamilyStyles& families) {
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; script-src 'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n";
  out += "<title>" + markup(input.calendar.garden.name) + "</title>\n<style>\n";
  out += picture_css();
  out += families.rules();
  out += page_css();
  return out + "</style>\n</head>\n";
}

std::string link(const char* to, const char* words) {
  return fmt::format("<li><a href=\"#{}\">{}</a></li>\n", to, words);
}

std::string header(const PageInput& input, const CautionBook& cautions) {
  const garden::Garden& garden = input.calendar.garden;
  std::string title = name_markup(garden.name);
  if (!input.calendar.bed.empty()) title += ", bed " + name_markup(input.calendar.bed);
  std::string out = fmt::format(
      "<header>\n<h1>{}</h1>\n<p>{}</p>\n<nav aria-label=\"Parts of this page\"><ul>\n", title,
      spoken_span(calendar::monday(garden.seasons.first),
                  calendar::monday(garden.seasons.past).plus_days(-1)));
  out += link("week", "The week") + link("picture", "Beds over the seasons") +
         link("tasks", "All tasks");
  if (!orders_by_day(input.calendar).empty()) out += link("order", "To order");
  out += link("sheets", "Bed sheets");
  if (!cautions.empty()) out += link("cautions", "Cautions");
  return out + link("sources", "Sources") + link("printing", "Printing") +
         "</ul></nav>\n</header>\n";
}

/// What goes on paper: plain boxes that the style sheet reads, so that they work without a script.
std::string print_choices() {
  static constexpr std::array<std::array<const char*, 2>, 6> kParts = {
      {{"week", "the week"},
       {"picture", "beds over the seasons"},
       {"tasks", "all tasks"},
       {"order", "to order"},
       {"sheets", "bed sheets"},
       {"sources", "cautions and sources"}}};
  std::string out =
      "<section id=\"printing\" class=\"printing\"><h2>Printing</h2>\n<fieldset><legend>What goes "
      "on "
      "paper</legend>\n";
  for (const auto& [part, words] : kParts) {
    out += fmt::format(
        "<label class=\"tick\"><input type=\"checkbox\" id=\"print-{}\" checked> {}</label>\n",
        part, words);
  }
  return out +
         "<label class=\"tick\"><input type=\"checkbox\" id=\"print-apart\"> each bed on a page of "
         "its own</label>\n</fieldset>\n<p>The year, the bed and the kind chosen under All tasks "
         "hold on paper too.</p></section>\n";
}

std::string findings_section(const PageContext& page) {
  const std::string list = findings_list(page, "");
  if (list.empty()) return {};
  return "<section id=\"findings\"><h2>Findings for the whole garden</h2>\n" + list +
         "</section>\n";
}

}  // namespace

std::string calendar_html(const PageInput& input) {
  const garden::Garden& garden = input.calendar.garden;
  const calendar::Date since = calendar::monday(garden.seasons.first);
  const std::vector<BedStands> beds = stands_by_bed(input.calendar, input.accounts, since);
  const FamilyStyles families(input.calendar.catalogue, plantings_in(beds), garden.history);
  const std::vector<const Task*> tasks = chosen_tasks(input.calendar);
  const CautionBook cautions(tasks);
  const calendar::WeekSpan weeks = picture_weeks(garden, beds);
  const PageContext page{input.calendar, input.findings, input.reasons,
                         beds,           families,       tasks,
                         cautions,       weeks,          week_shown(input, tasks, weeks),
                         input.as_of};
  std::string out = head(input, families);
  out += fmt::format("<body data-garden=\"{:016x}\"{}>\n", fingerprint(garden.name),
                     input.as_of ? fmt::format(" data-today=\"{}\"", input.as_of->serial()) : "");
  out += "<svg class=\"defs\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>\n" +
         families.patterns() + "</defs></svg>\n";
  out += header(input, cautions) + "<main>\n";
  out += week_section(page) + picture_section(page) + tasks_section(page) + order_section(page);
  out += findings_section(page) + sheets_section(page) + cautions.section() +
         sources_section(page) + print_choices();
  out += "</main>\n<footer><p>Made by aftercrop " AFTERCROP_VERSION
         ". No promise of a harvest.</p></footer>\n<script>\n";
  out += page_js();
  out += picture_js();
  return out + "</script>\n</body>\n</html>\n";
}

}  // namespace aftercrop::emit
