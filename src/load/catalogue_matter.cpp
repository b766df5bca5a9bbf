#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::Moment;

constexpr Limits kWeeks{0, 52};
constexpr Limits kShare{0, 1};

void read_cautions_of(const RowFields& row, std::vector<std::string>& into, CatalogueBuild& build) {
  row.texts("cautions", into);
  for (const std::string& id : into) {
    if (build.rows.find_caution(id) == nullptr) {
      build.out.error("unknown-caution", "\"" + id + "\" is not the id of a caution", row.source(),
                      "name a row of `cautions:`");
    }
  }
}

void read_amendment(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "amendments", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.amendments, id);
  catalogue::Amendment& one = build.rows.amendments[place];
  const RowFields row(node, "an amendment",
                      {"id", "name", "also", "n_pct", "available", "mineral_share", "slow_share",
                       "quick", "raw_manure", "fresh_matter", "dry_matter", "tie_up_share",
                       "kg_per_litre", "cautions", "source"},
                      build.out);
  if (fresh) row.need({"name", "n_pct"});
  row.text("name", one.name);
  row.texts("also", one.also);
  row.number("n_pct", one.n_pct, {0, 50});
  row.range("available", one.available, {-0.5, 1});
  row.number("mineral_share", one.mineral_share, kShare);
  row.number("slow_share", one.slow_share, kShare);
  row.yes_no("quick", one.quick);
  row.yes_no("raw_manure", one.raw_manure);
  row.yes_no("fresh_matter", one.fresh_matter);
  row.number("dry_matter", one.dry_matter, {0.02, 1});
  row.number("tie_up_share", one.tie_up_share, kShare);
  row.number("kg_per_litre", one.kg_per_litre, {0.02, 2});
  read_cautions_of(row, one.cautions, build);
  read_row_source(row, build, one.sources);
}

void read_residue(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "residues", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.residues, id);
  catalogue::ResidueClass& one = build.rows.residues[place];
  const RowFields row(
      node, "a residue class",
      {"id", "name", "incorporated", "mulch", "transplants", "late_incorporated", "late_mulch",
       "late_transplants", "winterkilled", "mulch_transplants", "least_incorporated", "source"},
      build.out);
  if (fresh) row.need({"name", "incorporated", "mulch", "transplants"});
  row.text("name", one.name);
  row.whole("incorporated", one.incorporated, kWeeks);
  row.whole("mulch", one.mulch, kWeeks);
  row.whole("transplants", one.transplants, kWeeks);
  if (fresh) {
    one.late_incorporated = one.incorporated;
    one.late_mulch = one.mulch;
    one.late_transplants = one.transplants;
    one.mulch_transplants = one.transplants;
  }
  row.whole("late_incorporated", one.late_incorporated, kWeeks);
  row.whole("late_mulch", one.late_mulch, kWeeks);
  row.whole("late_transplants", one.late_transplants, kWeeks);
  row.whole("winterkilled", one.winterkilled, kWeeks);
  row.whole("mulch_transplants", one.mulch_transplants, kWeeks);
  row.whole("least_incorporated", one.least_incorporated, kWeeks);
  read_row_source(row, build, one.sources);
}

void read_partner(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "partners", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.partners, id);
  catalogue::PartnerRow& one = build.rows.partners[place];
  const RowFields row(node, "a partner",
                      {"id", "partner", "for", "pests", "mechanism", "placement", "effect", "cost",
                       "watch", "grade", "source"},
                      build.out);
  if (fresh) row.need({"partner", "mechanism", "grade"});
  if (const Node* crops = row.get("partner")) one.partner_crops = build.crops(*crops);
  if (const Node* crops = row.get("for")) one.partner_for = build.crops(*crops);
  row.texts("pests", one.pests);
  row.text("mechanism", one.mechanism);
  row.text("placement", one.placement);
  row.text("effect", one.effect);
  row.text("cost", one.cost);
  if (const Node* watch = row.get("watch")) {
    const RowFields fields(*watch, "watch", {"every_days", "do"}, build.out);
    fields.need({"every_days", "do"});
    fields.whole("every_days", one.watch_days, {1, 60});
    fields.text("do", one.watch);
  }
  row.choice<char>("grade", one.grade, {{"A", 'A'}, {"B", 'B'}, {"C", 'C'}});
  read_row_source(row, build, one.sources);
}

void read_caution(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "cautions", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.cautions, id);
  catalogue::Caution& one = build.rows.cautions[place];
  const RowFields row(node, "a caution", {"id", "text", "when", "source"}, build.out);
  if (fresh) row.need({"text"});
  row.text("text", one.text);
  row.choice<Moment>(
      "when", one.when,
      {{"start", Moment::Start}, {"harvest", Moment::Harvest}, {"end", Moment::End}});
  read_row_source(row, build, one.sources);
}

}  // namespace

void read_amendments(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "amendments", build.out)) read_amendment(*row, build);
}

void read_residues(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "residues", build.out)) read_residue(*row, build);
}

void read_partners(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "partners", build.out)) read_partner(*row, build);
}

void read_cautions(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "cautions", build.out)) read_caution(*row, build);
}

}  // namespace aftercrop::load
