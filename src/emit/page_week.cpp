#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "emit/markup.h"
#include "emit/page_parts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

/// "tomato in N1.1, N2.2; kale in S1.1": what the week's harvest spans hold.
std::string picking(const PageContext& page, calendar::Week week) {
  std::map<std::string, std::string> beds_of;
  for (const BedStands& bed : page.beds) {
    for (const StandView& stand : bed.stands) {
      if (!garden::harvest_weeks_of(*stand.planting).contains(week)) continue;
      std::string& beds = beds_of[short_name(page.input.catalogue.crop(stand.planting->crop))];
      if (!beds.empty()) beds += ", ";
      beds += name_markup(page.bed(bed.bed).name);
    }
  }
  std::string out;
  for (const auto& [crop, beds] : beds_of) {
    out += fmt::format("<li>{} <small>{}</small></li>", markup(crop), beds);
  }
  return out.empty() ? "<li>nothing</li>" : out;
}

std::string list_of(const PageContext& page, calendar::Week week) {
  std::string out;
  for (const Task* task : page.tasks) {
    if (calendar::week_of(task->date) == week) out += task_item(page, *task);
  }
  return out.empty() ? "<li>nothing to begin or to end</li>\n" : out;
}

std::string week_chooser(const PageContext& page) {
  return fmt::format(
      "<div class=\"chooser script\" hidden>\n"
      "<button type=\"button\" id=\"week-before\" aria-label=\"week before\">&#8592;</button>\n"
      "<label for=\"week-slider\" class=\"hidden\">Week</label>\n"
      "<input type=\"range\" id=\"week-slider\" min=\"{}\" max=\"{}\" value=\"{}\">\n"
      "<button type=\"button\" id=\"week-after\" aria-label=\"week after\">&#8594;</button>\n"
      "<button type=\"button\" id=\"week-now\">this week</button>\n</div>\n",
      page.weeks.first.serial(), page.weeks.past.serial() - 1, page.shown.serial());
}

constexpr double kNames = 64;  // room for the names of the rows

/// Families with their colours and patterns, and the signs of a bar.
std::string family_key(const PageContext& page) {
  std::string out = "<ul class=\"key\">\n";
  for (std::size_t i = 0; i < page.families.families().size(); ++i) {
    out += fmt::format(
        "<li><svg class=\"sample\" viewBox=\"0 0 34 20\" aria-hidden=\"true\"><rect "
        "class=\"box f{}\" width=\"34\" height=\"20\"/></svg>{}</li>\n",
        i + 1, markup(page.families.name(page.families.families()[i])));
  }
  out +=
      "<li><svg class=\"sample\" viewBox=\"0 0 34 20\" aria-hidden=\"true\"><rect class=\"box "
      "f0 cover\" y=\"6\" width=\"34\" height=\"14\"/></svg>low, dashed: a cover</li>\n"
      "<li><svg class=\"sample\" viewBox=\"0 0 34 20\" aria-hidden=\"true\"><rect class=\"box f0\" "
      "width=\"34\" height=\"20\"/><rect class=\"picked\" y=\"16\" width=\"34\" "
      "height=\"4\"/></svg>underlined: harvest</li>\n</ul>\n";
  return out;
}

/// One page's part of the picture.
std::string paper_strip(const Picture& part) {
  const double height = picture_height(part);
  return fmt::format(
      "<svg class=\"paper-strip\" aria-hidden=\"true\" viewBox=\"0 0 {0} {1}\">{2}<g "
      "transform=\"translate({3})\">\n{4}</g></svg>\n",
      coordinate(kNames + picture_width(part)), coordinate(height), picture_names(part),
      coordinate(kNames), picture_body(part, Bars::Plain));
}

/// On paper: as many weeks and rows as a page takes.
std::string paper_strips(const Picture& picture) {
  constexpr double kPageShape = 1.18;  // height to width that A4 and Letter both take
  constexpr double kLeastWeeks = 53;
  constexpr double kMostWeeks = 96;
  const double wanted = (picture_height(picture) / kPageShape - kNames) / kWeekWidth;
  const int weeks = static_cast<int>(std::ceil(std::clamp(wanted, kLeastWeeks, kMostWeeks)));
  const double page_height = kPageShape * (kNames + kWeekWidth * weeks);
  std::string out;
  for (calendar::Week first = picture.weeks.first; first < picture.weeks.past;
       first = first + calendar::Weeks(weeks)) {
    for (std::size_t row = 0; row < picture.beds.size();) {
      const std::size_t rows = rows_that_fit(picture, row, page_height);
      const auto begin = picture.beds.begin() + static_cast<std::ptrdiff_t>(row);
      const std::vector<BedStands> beds(begin, begin + static_cast<std::ptrdiff_t>(rows));
      const calendar::WeekSpan window{first, first + calendar::Weeks(weeks)};
      out += paper_strip({picture.input, beds, picture.families, window});
      row += rows;
    }
  }
  return out;
}

}  // namespace

std::string week_section(const PageContext& page) {
  const calendar::Date monday = calendar::monday(page.shown);
  std::string out = "<section id=\"week\">\n";
  out += fmt::format("<h2 id=\"week-title\">{} of {}</h2>\n",
                     page.as_of ? "This week, that" : "The week",
                     spoken_span(monday, monday.plus_days(6)));
  out += week_chooser(page);
  out +=
      "<div class=\"two\">\n<div>\n<h3>What to do</h3>\n<ul class=\"todo\" id=\"week-tasks\">\n" +
      list_of(page, page.shown) +
      "</ul>\n<h3>To pick</h3>\n<ul class=\"picking\" id=\"week-picking\">" +
      picking(page, page.shown) + "</ul>\n</div>\n";
  out += "<div>\n<h3>What stands where</h3>\n" + plot_view(page, page.shown) + "</div>\n</div>\n";
  return out + "</section>\n";
}

std::string picture_section(const PageContext& page) {
  const Picture picture{page.input, page.beds, page.families, page.weeks};
  const std::string width = coordinate(picture_width(picture));
  const std::string height = coordinate(picture_height(picture));
  std::string out =
      "<section id=\"picture\"><h2>Beds over the seasons</h2>\n"
      "<p class=\"hint script\" hidden>Choose a bar to see what is known of it. With the keyboard: "
      "arrow keys go from bar to bar, Enter opens its bed sheet.</p>\n"
      "<div class=\"zoom script\" hidden><button type=\"button\" id=\"zoom-out\">less "
      "detail</button>"
      "<button type=\"button\" id=\"zoom-in\">more detail</button></div>\n"
      "<div class=\"frame\">\n";
  out += fmt::format(
      "<svg class=\"names\" aria-hidden=\"true\" width=\"64\" height=\"{0}\" "
      "viewBox=\"0 0 64 {0}\">{1}</svg>\n",
      height, picture_names(picture));
  out += fmt::format(
      "<section class=\"pan\" id=\"pan\" tabindex=\"0\" "
      "aria-label=\"Beds over the seasons\">\n"
      "<svg id=\"beds-over-time\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" "
      "data-first=\"{2}\" data-days=\"{3}\" role=\"group\" aria-label=\"Stands\">\n{4}",
      width, height, calendar::monday(page.weeks.first).serial(), 7 * page.weeks.length().count(),
      picture_body(picture, Bars::Linked));
  if (page.as_of) out += day_line(picture, *page.as_of);
  out += "</svg>\n</section>\n</div>\n" + family_key(page) +
         "<aside id=\"card\" class=\"card script\" aria-live=\"polite\" aria-label=\"The chosen "
         "stand\" hidden></aside>\n";
  return out + paper_strips(picture) + "</section>\n";
}

}  // namespace aftercrop::emit
