#include "load/rotation.h"

#include <fmt/format.h>

#include <algorithm>

#include "load/rotation_dates.h"

namespace aftercrop::load {
namespace {

using catalogue::CropId;
using diagnostic::Diagnostics;
using garden::BedId;
using garden::Planting;

constexpr int kMostYears = 12;

void report_shape(const Node& node, std::string message, Diagnostics& out) {
  out.error(
      "rotation-shape", std::move(message), node.source,
      "write `years: [2027, 2028]` and `beds: {A: [tomato, kale]}`, or `cycle: [tomato, kale]` "
      "and `beds: A..B`");
}

/// One crop name, or several side by side.
using SideBySide = std::vector<CropId>;

/// "a + b" as names of their own.
SideBySide read_side_by_side(const Node& node, Lookup& lookup, Diagnostics& out) {
  SideBySide crops;
  if (!node.is_scalar()) {
    report_shape(node, "a cell of the rotation is a crop or a list of crops", out);
    return crops;
  }
  std::size_t start = 0;
  while (start <= node.text.size()) {
    const std::size_t end = std::min(node.text.find(" + ", start), node.text.size());
    Node name = node;
    name.text = node.text.substr(start, end - start);
    if (const auto crop = lookup.crop(name, out)) crops.push_back(*crop);
    start = end + 3;
  }
  return crops;
}

/// Reads cells into the sequence of each section of a bed.
class Rows {
 public:
  Rows(const RecordContext& context, Diagnostics& out) : context_(context), out_(out) {}

  void add_row(const std::vector<BedId>& sections, const std::vector<const Node*>& cells,
               const std::vector<int>& years) {
    std::vector<std::vector<RotationItem>> items(sections.size());
    for (std::size_t i = 0; i < cells.size() && i < years.size(); ++i) {
      if (!cells[i]->is_null()) add_cell(*cells[i], years[i], items);
    }
    for (std::size_t k = 0; k < sections.size(); ++k) place(sections[k], items[k]);
  }

  [[nodiscard]] std::vector<Planting> take() { return std::move(plantings_); }

 private:
  void add_cell(const Node& cell, int year, std::vector<std::vector<RotationItem>>& items) {
    std::vector<std::pair<SideBySide, const Node*>> order;
    for (const Node* one : list_of(cell)) {
      SideBySide crops = read_side_by_side(*one, *context_.lookup, out_);
      if (!items.empty() && crops.size() > items.size()) {
        out_.error("rotation-shape",
                   fmt::format("{} crops side by side in a bed of {} section{}", crops.size(),
                               items.size(), items.size() == 1 ? "" : "s"),
                   one->source,
                   "give the bed `sections:`, or write one crop after the other as a list");
      }
      if (!crops.empty()) order.emplace_back(std::move(crops), one);
    }
    for (std::size_t k = 0; k < items.size(); ++k) {
      for (std::size_t i = 0; i < order.size(); ++i) {
        const SideBySide& crops = order[i].first;
        const CropId crop = crops[k % crops.size()];
        const bool cover = context_.fill.catalogue->crop(crop).is_cover();
        const bool leads = cover && food_follows(order, i, k);
        const bool trails = cover && !leads && i > 0;  // stands on to the next year's crop
        items[k].push_back({crop, trails ? year + 1 : year, leads || trails,
                            leads ? rest_before(crop, order, i, k) : calendar::Weeks(0),
                            order[i].second->source});
      }
    }
  }

  bool food_follows(const std::vector<std::pair<SideBySide, const Node*>>& order, std::size_t i,
                    std::size_t k) const {
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const SideBySide& crops = order[j].first;
      if (!context_.fill.catalogue->crop(crops[k % crops.size()]).is_cover()) return true;
    }
    return false;
  }

  /// Weeks that the residue of a cover, dug in, asks for before the next crop of the row.
  calendar::Weeks rest_before(CropId cover,
                              const std::vector<std::pair<SideBySide, const Node*>>& order,
                              std::size_t i, std::size_t k) const {
    const catalogue::Catalogue& rows = *context_.fill.catalogue;
    const catalogue::ResidueId residue = rows.crop(cover).residue;
    if (!residue.known() || i + 1 >= order.size()) return {};
    const SideBySide& crops = order[i + 1].first;
    const catalogue::Crop& next = rows.crop(crops[k % crops.size()]);
    const catalogue::ResidueClass& row = rows.residues[residue.place()];
    const bool plants = next.transplanted() || next.seed_class == catalogue::SeedClass::Vegetative;
    const int young = plants ? row.transplants : row.incorporated;
    const int old = plants ? row.late_transplants : row.late_incorporated;
    return calendar::Weeks(std::max({row.least_incorporated, young, old}));
  }

  void place(BedId bed, const std::vector<RotationItem>& items) {
    const auto dates = place_rotation(items, context_.fill.catalogue->crops, *context_.fill.years);
    for (std::size_t i = 0; i < items.size(); ++i) {
      Stand stand;
      stand.beds = {bed};
      stand.crop = items[i].crop;
      stand.source = items[i].source;
      stand.from = calendar::monday(dates[i].from);
      stand.to = calendar::monday(std::max(dates[i].to, dates[i].from + calendar::Weeks(1)));
      for (Planting& row : plantings_of(stand, context_.fill)) {
        context_.fill.assumed->add_filled(
            row.source, fmt::format("{} from {} to {}", context_.fill.catalogue->crop(row.crop).id,
                                    row.from.text(), row.to.text()));
        plantings_.push_back(std::move(row));
      }
    }
  }

  const RecordContext& context_;
  Diagnostics& out_;
  std::vector<Planting> plantings_;
};

std::vector<int> read_years(const Node& node, Diagnostics& out) {
  std::vector<int> years;
  for (const Node* item : list_of(node)) {
    const auto year = read_whole(*item, "a year of the rotation", {1990, 2120}, out);
    if (!year) return {};
    if (!years.empty() && *year <= years.back()) {
      report_shape(*item, "the years of a rotation rise from left to right", out);
      return {};
    }
    years.push_back(*year);
  }
  if (years.size() > kMostYears) {
    report_shape(node, fmt::format("a rotation has up to {} years", kMostYears), out);
    return {};
  }
  return years;
}

void read_table(const Fields& fields, const RecordContext& context, Rows& rows, Diagnostics& out) {
  const Node* years_node = fields.need("years", out);
  const Node* beds = fields.need("beds", out);
  if (years_node == nullptr || beds == nullptr) return;
  const std::vector<int> years = read_years(*years_node, out);
  if (!beds->is_map()) {
    report_shape(*beds, "the beds of a rotation are a table: a row a bed", out);
    return;
  }
  for (std::size_t i = 0; i < beds->items.size(); ++i) {
    Node name;
    name.kind = Node::Kind::Scalar;
    name.text = beds->keys[i];
    name.source = beds->key_sources[i];
    const std::vector<BedId> sections = context.lookup->beds(name, out);
    const std::vector<const Node*> cells = list_of(beds->items[i]);
    if (cells.size() > years.size() && !years.empty()) {
      report_shape(beds->items[i], fmt::format("{} cells for {} years", cells.size(), years.size()),
                   out);
    }
    rows.add_row(sections, cells, years);
  }
}

void read_cycle(const Fields& fields, const Node& cycle, const RecordContext& context, Rows& rows,
                Diagnostics& out) {
  const Node* beds = fields.need("beds", out);
  const std::vector<const Node*> steps = read_list(cycle, "a cycle", out);
  if (beds == nullptr || steps.empty()) return;
  std::vector<int> years;
  if (const Node* node = fields.get("years")) {
    years = read_years(*node, out);
  } else {
    const int first =
        context.fill.years->season_of(context.fill.garden->seasons.first + calendar::Weeks(26));
    const int count = std::min(kMostYears, static_cast<int>(steps.size()) + 1);  // the seam too
    for (int i = 0; i < count; ++i) years.push_back(first + i);
  }
  std::map<std::string, std::vector<BedId>> sections;
  std::vector<std::string> order;
  for (const BedId bed : context.lookup->beds(*beds, out)) {
    const std::string& whole = context.fill.garden->bed(bed).whole;
    if (!sections.contains(whole)) order.push_back(whole);
    sections[whole].push_back(bed);
  }
  for (std::size_t b = 0; b < order.size(); ++b) {
    std::vector<const Node*> cells;
    for (std::size_t y = 0; y < years.size(); ++y) cells.push_back(steps[(b + y) % steps.size()]);
    rows.add_row(sections[order[b]], cells, years);
  }
}

}  // namespace

std::vector<Planting> read_rotation(const Node& node, const RecordContext& context,
                                    Diagnostics& out) {
  const Fields fields(node, "a rotation", {"years", "beds", "cycle"}, out);
  if (!fields.is_table()) return {};
  Rows rows(context, out);
  if (const Node* cycle = fields.get("cycle")) {
    read_cycle(fields, *cycle, context, rows, out);
  } else {
    read_table(fields, context, rows, out);
  }
  return rows.take();
}

}  // namespace aftercrop::load
