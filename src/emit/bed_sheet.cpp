#include <fmt/format.h>

#include <set>

#include "aftercrop/ledger/walk.h"
#include "emit/amounts.h"
#include "emit/markup.h"
#include "emit/page_parts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

std::string_view shelter_words(garden::Shelter shelter) {
  switch (shelter) {
    case garden::Shelter::Fleece:
      return "under fleece";
    case garden::Shelter::Tunnel:
      return "in a tunnel";
    case garden::Shelter::Open:
      break;
  }
  return "in the open";
}

std::string ground(const PageContext& page, const garden::Bed& bed) {
  const std::string soil =
      bed.soil.known() ? page.input.catalogue.soil(bed.soil).name : std::string("soil not said");
  return fmt::format("{}, {}, {:.1f} % organic matter, pH {:.1f}, {}",
                     area_text(bed.area.value(), page.input.garden.units), markup(soil),
                     bed.organic_matter_pct, bed.ph, shelter_words(bed.shelter));
}

/// What the records say of the time before the seasons, a phrase.
std::string earlier(const PageContext& page, garden::BedId bed) {
  const calendar::Date since = calendar::monday(page.input.garden.seasons.first);
  std::string out;
  for (const garden::Planting* planting :
       ledger::plantings_of(bed, page.input.garden.history, page.input.plan.plantings)) {
    if (planting->to > since) continue;
    out += fmt::format("{}{} ({})", out.empty() ? "" : ", ",
                       markup(short_name(page.input.catalogue.crop(planting->crop))),
                       planting->from.year());
  }
  return out;
}

std::string stand_item(const PageContext& page, const StandView& stand) {
  const garden::Planting& planting = *stand.planting;
  const catalogue::Crop& crop = page.input.catalogue.crop(planting.crop);
  std::string when = spoken_span(planting.from, planting.to.plus_days(-1));
  if (planting.harvest) {
    when += fmt::format(", harvest from {}", spoken_day(planting.harvest->first));
  }
  return fmt::format(
      "<li><details class=\"stand\" id=\"s{}\"><summary><svg class=\"sample\" viewBox=\"0 0 34 "
      "20\" "
      "aria-hidden=\"true\"><rect class=\"box {}{}\" width=\"34\" height=\"20\"/></svg> "
      "<strong>{}</strong> <span>{}</span></summary>\n{}</details></li>\n",
      stand.number, page.families.style_class(planting.crop), crop.is_cover() ? " cover" : "",
      markup(short_name(crop)), when, stand_facts(page, stand));
}

std::string bed_cautions(const PageContext& page, garden::BedId bed) {
  std::set<std::string> said;
  std::string out;
  for (const Task* task : page.tasks) {
    if (task->bed != bed || task->caution.empty()) continue;
    if (said.insert(task->caution).second) out += page.cautions.short_markup(task->caution);
  }
  return out.empty() ? out : "<h4>Cautions</h4>\n" + out + '\n';
}

std::string sheet(const PageContext& page, const BedStands& bed) {
  const garden::Bed& row = page.bed(bed.bed);
  std::string out = fmt::format(
      "<section class=\"sheet\" id=\"bed{}\"><h3>Bed {}</h3>\n<p class=\"soil\">{}</p>\n",
      bed.bed.place(), name_markup(row.name), ground(page, row));
  out += "<div class=\"two\"><div>\n<h4>What stands here</h4>\n<ol class=\"stands\">\n";
  for (const StandView& stand : bed.stands) out += stand_item(page, stand);
  if (bed.stands.empty()) out += "<li>nothing</li>\n";
  out += "</ol>\n";
  const std::string before = earlier(page, bed.bed);
  if (!before.empty()) out += "<p class=\"low\">Before: " + before + ".</p>\n";
  const std::string findings = findings_list(page, row.name);
  if (!findings.empty()) out += "<h4>Findings</h4>\n" + findings;
  out += bed_cautions(page, bed.bed) + "</div><div>\n";
  out += nitrogen_part(page, bed) + disease_part(page, bed);
  return out + "</div></div>\n</section>\n";
}

}  // namespace

std::string sheets_section(const PageContext& page) {
  std::string out = "<section id=\"sheets\"><h2>Bed sheets</h2>\n";
  for (const BedStands& bed : page.beds) out += sheet(page, bed);
  return out + "</section>\n";
}

}  // namespace aftercrop::emit
