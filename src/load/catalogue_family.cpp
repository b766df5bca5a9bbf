#include <fmt/format.h>

#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::Break;
using catalogue::BreakGroup;
using catalogue::BreakGroupId;
using catalogue::FamilyId;

constexpr Limits kSeasons{0, 100};

void read_break(const RowFields& row, std::string_view key, Break& into,
                diagnostic::Diagnostics& out) {
  const Node* node = row.get(key);
  if (node == nullptr) return;
  const RowFields fields(*node, key, {"min", "rec"}, out);
  fields.whole("min", into.min, kSeasons);
  fields.whole("rec", into.rec, kSeasons);
  check_order(into.min, into.rec, key, node->source, out);
}

void read_group(const Node& node, FamilyId family, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "breaks", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.groups, id);
  BreakGroup& group = build.rows.groups[place];
  const RowFields row(
      node, "a break",
      {"id", "label", "crop", "cover", "cover_binds_if_seen", "range_seen", "source"}, build.out);
  if (fresh) row.need({"label", "crop"});
  group.family = family;
  row.text("label", group.label);
  read_break(row, "crop", group.crop, build.out);
  read_break(row, "cover", group.cover, build.out);
  row.text("cover_binds_if_seen", group.cover_binds_if_seen);
  row.text("range_seen", group.range_seen);
  read_row_source(row, build, group.sources);
}

BreakGroupId find_group(const Node& node, CatalogueBuild& build) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < build.rows.groups.size(); ++i) {
    if (build.rows.groups[i].id == node.text) return BreakGroupId(i);
    known.push_back(build.rows.groups[i].id);
  }
  report_unknown("unknown-break", "the id of a break", node, known, build.out);
  return {};
}

void read_cross_break(const Node& node, CatalogueBuild& build) {
  const RowFields row(node, "a cross break", {"between", "crop"}, build.out);
  row.need({"between", "crop"});
  const Node* between = row.get("between");
  if (between == nullptr) return;
  const std::vector<const Node*> pair = read_list(*between, "between", build.out);
  if (pair.size() != 2) {
    build.out.error("wrong-count", "a cross break joins two breaks", between->source,
                    "write `between: [one, other]`");
    return;
  }
  catalogue::CrossBreak cross{find_group(*pair[0], build), find_group(*pair[1], build), {}};
  read_break(row, "crop", cross.crop, build.out);
  if (cross.a.known() && cross.b.known()) build.rows.cross_breaks.push_back(cross);
}

}  // namespace

void read_family(const RowFields& file, CatalogueBuild& build) {
  std::string id;
  file.text("family", id);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.families, id);
  catalogue::Family& family = build.rows.families[place];
  if (fresh) file.need({"name", "breaks"});
  file.text("name", family.name);
  if (fresh) family.trade_name = family.name;
  file.text("trade_name", family.trade_name);
  file.texts("also", family.also);
  if (const Node* breaks = file.get("breaks")) {
    for (const Node* one : read_list(*breaks, "breaks", build.out)) {
      read_group(*one, FamilyId(place), build);
    }
  }
  if (const Node* cross = file.get("cross_breaks")) {
    for (const Node* one : read_list(*cross, "cross_breaks", build.out)) {
      read_cross_break(*one, build);
    }
  }
}

}  // namespace aftercrop::load
