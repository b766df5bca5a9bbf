#include "load/bed_row.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercrop/garden/measure_text.h"
#include "load/lookup.h"
#include "load/measure.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::Shelter;

constexpr int kMostSections = 26;
constexpr int kLetters = 26;
constexpr double kSectionM = 1.2;  // beds in the short form are divided at about this
constexpr int kMostShortSections = 4;
constexpr double kMixOrganicMatterPct = 20.0;  // bought soil mixes: our choice

const Ask kLength{"the length of a bed", {Dimension::Length}, "ft, m, cm", {0.2, 1000.0}};
const Ask kWidth{"the width of a bed", {Dimension::Length}, "ft, m, cm", {0.1, 200.0}};
const Ask kOrganicMatter{"organic matter", {Dimension::Share}, "%", {0.1, 95.0}};

std::optional<std::pair<double, double>> read_place(const Node& node, Diagnostics& out) {
  const std::vector<const Node*> items = read_list(node, "where a bed lies", out);
  if (items.size() != 2) {
    if (node.is_sequence()) {
      out.error("wrong-shape", "where a bed lies is two numbers", node.source,
                "write `lies: [3, 1.5]`: metres east and north");
    }
    return {};
  }
  const auto x = read_number(*items[0], "metres east", {-1e5, 1e5}, out);
  const auto y = read_number(*items[1], "metres north", {-1e5, 1e5}, out);
  if (!x || !y) return {};
  return std::make_pair(*x, *y);
}

std::vector<std::string> read_names(const Node& node, Diagnostics& out) {
  std::vector<std::string> names;
  for (const Node* item : list_of(node)) {
    const auto text = read_text(*item, "the name of a bed", out);
    if (!text) continue;
    const std::vector<std::string> range = expand_range(*text);
    if (range.empty()) {
      out.error("bed-name", fmt::format("\"{}\" is not a range of names", *text), item->source,
                "a range runs from A..F or from N1..N4");
    }
    names.insert(names.end(), range.begin(), range.end());
  }
  return names;
}

void read_earth(const Fields& fields, const BedContext& context, garden::Bed& bed,
                Diagnostics& out) {
  std::optional<Ground> ground = context.ground;
  if (const Node* node = fields.get("soil")) {
    ground = read_ground(*node, *context.catalogue, out);
  } else if (!ground) {
    context.assumed->add("loam");
  }
  if (ground) {
    bed.soil = ground->soil;
    bed.bought_mix = ground->bought_mix;
  } else if (const auto loam = context.catalogue->find_soil("loam")) {
    bed.soil = *loam;
  }
  if (bed.bought_mix) bed.organic_matter_pct = kMixOrganicMatterPct;
  if (const Node* node = fields.get("organic_matter")) {
    if (const auto share = read_measure(*node, kOrganicMatter, out)) {
      bed.organic_matter_pct = share->value;
    }
  } else {
    context.assumed->add(fmt::format("{:g} % organic matter", bed.organic_matter_pct));
  }
  if (const Node* node = fields.get("ph")) {
    if (const auto ph = read_number(*node, "pH", {3.0, 10.0}, out)) bed.ph = *ph;
  } else {
    context.assumed->add(fmt::format("pH {:g}", bed.ph));
  }
}

void read_water(const Fields& fields, const BedContext& context, garden::Bed& bed,
                Diagnostics& out) {
  const Node* node = fields.get("irrigation");
  if (node == nullptr) node = fields.get("watered");
  if (node != nullptr) {
    if (const auto yes = read_yes_no(*node, "irrigation", out)) bed.watered = *yes;
  } else if (context.watered) {
    bed.watered = *context.watered;
  } else {
    context.assumed->add("watered");
  }
  if (const Node* wet = fields.get("poorly_drained")) {
    if (const auto yes = read_yes_no(*wet, "poorly_drained", out)) bed.poorly_drained = *yes;
  }
}

void read_surroundings(const Fields& fields, garden::Bed& bed, Diagnostics& out) {
  if (const Node* node = fields.get("shelter")) {
    const auto shelter = read_choice<Shelter>(
        *node, "a shelter",
        {{"open", Shelter::Open}, {"fleece", Shelter::Fleece}, {"tunnel", Shelter::Tunnel}}, out);
    if (shelter) bed.shelter = *shelter;
  }
  if (const Node* node = fields.get("beside")) bed.beside = read_names(*node, out);
  if (const Node* node = fields.get("lies")) bed.lies = read_place(*node, out);
}

/// A size that was not understood stays 1 m, so that the bed's name is known all the same.
void read_size(const Fields& fields, garden::Bed& bed, Diagnostics& out) {
  bed.length = units::Metres(1.0);
  bed.width = units::Metres(1.0);
  const Node* length = fields.need("length", out);
  const Node* width = fields.need("width", out);
  if (length != nullptr) {
    if (const auto measure = read_measure(*length, kLength, out)) {
      bed.length = units::Metres(measure->value);
    }
  }
  if (width != nullptr) {
    if (const auto measure = read_measure(*width, kWidth, out)) {
      bed.width = units::Metres(measure->value);
    }
  }
  bed.area = units::SquareMetres(bed.length.value() * bed.width.value());
}

std::vector<std::string> letters_or_numbers(int count) {
  std::vector<std::string> names;
  names.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    names.push_back(count <= kLetters ? std::string(1, static_cast<char>('A' + i))
                                      : fmt::format("{}", i + 1));
  }
  return names;
}

void assume_earth(const BedContext& context, garden::Bed& bed, Diagnostics& out) {
  Node empty;
  empty.kind = Node::Kind::Map;
  const Fields nothing(empty, "a bed", {}, out);
  read_earth(nothing, context, bed, out);
  read_water(nothing, context, bed, out);
}

void report_short(const Node& node, Diagnostics& out) {
  out.error("wrong-shape", fmt::format("\"{}\" does not say which beds there are", node.text),
            node.source, "write `6 of 8 ft x 4 ft`, or a list of tables with names and sizes");
}

}  // namespace

std::optional<Ground> read_ground(const Node& node, const catalogue::Catalogue& catalogue,
                                  Diagnostics& out) {
  const bool mix = node.is_scalar() && canonical_word(node.text) == "bought-mix";
  if (mix && !catalogue.find_soil("bought-mix")) {
    const auto base = catalogue.find_soil("sandy-loam");
    return Ground{base.value_or(catalogue::SoilId(0)), true};
  }
  const auto place =
      find_row(catalogue.soils, node, "a soil of the catalogue", "unknown-soil", out);
  if (!place) return {};
  return Ground{catalogue::SoilId(*place), mix};
}

std::optional<BedRow> read_bed_row(const Node& node, const BedContext& context, Diagnostics& out) {
  const Fields fields(node, "a bed",
                      {"bed", "beds", "length", "width", "sections", "soil", "organic_matter", "ph",
                       "shelter", "irrigation", "watered", "poorly_drained", "beside", "lies"},
                      out);
  if (!fields.is_table()) return {};
  BedRow row;
  row.bed.source = node.source;
  const Node* names = fields.get("beds");
  if (names == nullptr) names = fields.get("bed");
  if (names == nullptr) {
    out.error("missing-key", "a bed needs a name", node.source,
              "add `bed: N1`, or `beds: [N1, N2]` for several alike");
  } else {
    row.names = read_names(*names, out);
    row.bed.source = list_of(*names).empty() ? names->source : list_of(*names).front()->source;
  }
  if (const Node* sections = fields.get("sections")) {
    row.sections = read_whole(*sections, "sections", {1, kMostSections}, out).value_or(1);
  }
  read_earth(fields, context, row.bed, out);
  read_water(fields, context, row.bed, out);
  read_surroundings(fields, row.bed, out);
  read_size(fields, row.bed, out);
  return row;
}

std::optional<BedRow> read_short_beds(const Node& node, const BedContext& context,
                                      Diagnostics& out) {
  const std::string& text = node.text;
  const std::size_t of = text.find(" of ");
  const std::size_t cross = text.find(" x ", of == std::string::npos ? 0 : of);
  if (of == std::string::npos || cross == std::string::npos) {
    report_short(node, out);
    return {};
  }
  const auto count = plain_whole(std::string_view(text).substr(0, of));
  if (!count) {
    report_short(node, out);
    return {};
  }
  if (!check_range(*count, "", {1, 1000}, "the number of beds", node.source, out)) return {};
  const auto length = parse_measure(std::string_view(text).substr(of + 4, cross - of - 4), kLength,
                                    node.source, out);
  const auto width =
      parse_measure(std::string_view(text).substr(cross + 3), kWidth, node.source, out);
  if (!length || !width) return {};
  BedRow row;
  row.bed.source = node.source;
  row.names = letters_or_numbers(*count);
  row.bed.length = units::Metres(std::max(length->value, width->value));
  row.bed.width = units::Metres(std::min(length->value, width->value));
  row.bed.area = units::SquareMetres(length->value * width->value);
  row.sections = std::clamp(static_cast<int>(std::lround(row.bed.length.value() / kSectionM)), 1,
                            kMostShortSections);
  assume_earth(context, row.bed, out);
  if (row.sections > 1) {
    out.note("beds-divided",
             fmt::format("{} bed is divided into {} sections of {} with a record each",
                         *count == 1 ? "the" : "each", row.sections,
                         garden::side_text(row.bed.length.value() / row.sections, context.units)),
             node.source, "give the beds as a list with `sections:` to divide them otherwise");
  }
  return row;
}

}  // namespace aftercrop::load
