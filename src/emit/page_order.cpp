#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercrop/catalogue/provenance.h"
#include "emit/calendar_rows.h"
#include "emit/markup.h"
#include "emit/page_parts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

std::string severity_words(diagnostic::Severity severity) {
  switch (severity) {
    case diagnostic::Severity::Error:
      return "Not allowed";
    case diagnostic::Severity::Warning:
      return "Warning";
    case diagnostic::Severity::Note:
      break;
  }
  return "Note";
}

std::string finding_item(const diagnostic::Diagnostic& finding) {
  std::string out =
      fmt::format("<li class=\"{}\"><strong>{}:</strong> {}", diagnostic::name(finding.severity),
                  severity_words(finding.severity), prose_markup(finding.message));
  if (finding.week) out += fmt::format(" ({})", date_markup(calendar::monday(*finding.week)));
  if (!finding.help.empty()) out += fmt::format("<p>{}</p>", prose_markup(finding.help));
  for (const std::string& reference : finding.references) {
    out += fmt::format("<p class=\"source\">{}</p>", markup(reference));
  }
  return out +
         fmt::format("<p class=\"source\">rule <code>{}</code></p></li>\n", markup(finding.id));
}

/// Every section of the garden has one, on this page or on another.
bool has_sheet(const PageContext& page, const std::string& bed) {
  return std::any_of(page.input.garden.beds.begin(), page.input.garden.beds.end(),
                     [&](const garden::Bed& row) { return row.name == bed; });
}

std::string source_item(const catalogue::Attribution& row) {
  std::string who;
  for (const catalogue::Citation& one : row.sources) {
    who += fmt::format("{}{}", who.empty() ? "" : "; ", markup(one.text));
    const bool plain = one.grade.empty() || one.text == one.grade;
    if (!plain) who += fmt::format(" <small>({})</small>", markup(one.grade));
  }
  return fmt::format("<li>{}: {}</li>\n", markup(row.figures), who);
}

}  // namespace

std::string order_section(const PageContext& page) {
  const auto days = orders_by_day(page.input);
  if (days.empty()) return {};
  std::string out =
      "<section id=\"order\"><h2>To order</h2>\n<p>With a margin for losses. The day is the "
      "Monday of the week in which the thing is first used.</p>\n<div class=\"days\">\n";
  for (const auto& [day, lines] : days) {
    const std::string uid = order_uid(page.input.garden, day);
    out += fmt::format("<section><h3>By {}</h3><ul>\n", date_markup(day));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      out +=
          fmt::format("<li><label><input type=\"checkbox\" data-uid=\"{}-{}\"> {}</label></li>\n",
                      uid, i + 1, markup(order_text(*lines[i], page.input.garden.units)));
    }
    out += "</ul></section>\n";
  }
  return out + "</div></section>\n";
}

std::string findings_list(const PageContext& page, const std::string& bed) {
  std::string out;
  for (const diagnostic::Diagnostic& finding : page.findings.all()) {
    const bool here = finding.bed == bed || (bed.empty() && !has_sheet(page, finding.bed));
    if (here) out += finding_item(finding);
  }
  return out.empty() ? out : "<ul class=\"findings\">\n" + out + "</ul>\n";
}

std::string sources_section(const PageContext& page) {
  std::set<catalogue::CropId> crops;
  for (const garden::Planting* planting : plantings_in(page.beds)) {
    crops.insert(planting->crop);
    for (const garden::Partner& partner : planting->partners) crops.insert(partner.crop);
  }
  std::string out =
      "<section id=\"sources\"><h2>Where the figures come from</h2>\n<p>Figures are typical ones "
      "with wide ranges; your soil and your weather are not typical. Local extension advice, law "
      "and licensed practice go before what stands here.</p>\n";
  for (const catalogue::CropId id : crops) {
    const catalogue::Crop& crop = page.input.catalogue.crop(id);
    out += fmt::format("<details id=\"crop{}\"><summary>{}</summary><ul>\n", id.place(),
                       markup(crop.name));
    for (const catalogue::Attribution& row : catalogue::attributions(crop)) out += source_item(row);
    out += "</ul></details>\n";
  }
  return out + "</section>\n";
}

}  // namespace aftercrop::emit
