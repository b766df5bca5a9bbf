#include "load/stand.h"

#include <fmt/format.h>

#include "load/moments.h"

namespace aftercrop::load {
namespace {

using calendar::Date;
using catalogue::Ending;
using diagnostic::Diagnostics;
using garden::Partner;
using garden::Placement;
using garden::Resistance;

constexpr int kLongestStandDays = 25 * 366;

const Ask kYield{
    "what was harvested", {Dimension::Mass, Dimension::MassPerArea}, "kg, lb, kg/m2", {0.0, 1.0e6}};

const Ask kDryMatter{
    "dry matter of a cover", {Dimension::MassPerArea}, "t/ha, kg/m2, lb/acre, g/ft2", {0.0, 3.0}};
const Ask kHeight{"the height of a cover", {Dimension::Length}, "cm, in", {0.01, 4.0}};
const Ask kNitrogen{"nitrogen in dry matter", {Dimension::Share}, "%", {0.3, 8.0}};
constexpr double kTonnesPerHa = 10.0;  // of 1 kg/m2

std::optional<Date> optional_date(const Fields& fields, std::string_view key, Diagnostics& out) {
  const Node* node = fields.get(key);
  if (node == nullptr) return {};
  return read_date(*node, fmt::format("`{}`", key), out);
}

std::optional<Ending> read_ending(const Node& node, Diagnostics& out) {
  const auto text = read_text(node, "an ending", out);
  if (!text) return {};
  const auto ending = catalogue::parse_ending(*text);
  if (!ending) {
    report_unknown("unknown-ending", "a way to end a stand", node,
                   {catalogue::kEndingNames.begin(), catalogue::kEndingNames.end()}, out);
  }
  return ending;
}

std::optional<calendar::DateSpan> read_harvest(const Node& node, Diagnostics& out) {
  const std::vector<const Node*> items = list_of(node);
  if (items.size() > 2 || items.empty()) {
    out.error("wrong-shape", "a harvest is two dates", node.source,
              "write `harvest: [2027-07-15, 2027-09-30]`");
    return {};
  }
  const auto first = read_date(*items.front(), "the first harvest", out);
  const auto last = read_date(*items.back(), "the end of the harvest", out);
  if (!first || !last) return {};
  if (*last < *first) {
    out.error("date-order", fmt::format("the harvest ends on {}, before it begins", last->text()),
              node.source, "put the earlier date first");
    return {};
  }
  return calendar::DateSpan{*first, std::max(*last, first->plus_days(1))};
}

std::optional<Partner> read_partner(const Node& node, Lookup& lookup, Diagnostics& out) {
  Partner partner;
  if (node.is_scalar()) {
    const auto crop = lookup.crop(node, out);
    if (!crop) return {};
    partner.crop = *crop;
    return partner;
  }
  const Fields fields(node, "a partner", {"crop", "at"}, out);
  const Node* name = fields.need("crop", out);
  if (name == nullptr) return {};
  const auto crop = lookup.crop(*name, out);
  if (const Node* at = fields.get("at")) {
    const auto place = read_choice<Placement>(*at, "a place of partners",
                                              {{"edge", Placement::Edge},
                                               {"in-row", Placement::InRow},
                                               {"between", Placement::Between},
                                               {"around", Placement::Around}},
                                              out);
    if (place) partner.at = *place;
  }
  if (!crop) return {};
  partner.crop = *crop;
  return partner;
}

void read_dates(const Fields& fields, Stand& stand, Diagnostics& out) {
  stand.from = optional_date(fields, "from", out);
  stand.to = optional_date(fields, "to", out);
  stand.raised = optional_date(fields, "raised", out);
  if (const Node* node = fields.get("harvest")) stand.harvest = read_harvest(*node, out);
  if (const Node* node = fields.get("year")) {
    stand.year = read_whole(*node, "the year of a stand", {1950, 2150}, out);
  }
}

/// What was measured of a cover: its dry matter, or its height for a rough one.
void read_cover_growth(const Fields& fields, const catalogue::Catalogue& rows, Stand& stand,
                       Diagnostics& out) {
  const catalogue::Crop& crop = rows.crop(stand.crop);
  for (const char* key : {"dry_matter", "height", "nitrogen"}) {
    const Node* node = fields.get(key);
    if (node == nullptr || crop.is_cover()) continue;
    out.error("not-a-cover", fmt::format("`{}` is for cover crops; {} is none", key, crop.name),
              node->source, "leave it out; `yield:` says what was harvested");
    return;
  }
  if (const Node* node = fields.get("height")) {
    const auto height = read_measure(*node, kHeight, out);
    const bool cereal = rows.family(crop.family).id == "poaceae";
    if (height) stand.dry_t_ha = garden::dry_matter_by_height(height->value, cereal);
  }
  if (const Node* node = fields.get("dry_matter")) {
    const auto dry = read_measure(*node, kDryMatter, out);
    if (dry) stand.dry_t_ha = dry->value * kTonnesPerHa;
  }
  if (const Node* node = fields.get("nitrogen")) {
    if (const auto share = read_measure(*node, kNitrogen, out)) stand.n_pct = share->value;
  }
}

void read_rest(const Fields& fields, Lookup& lookup, Stand& stand, Diagnostics& out) {
  if (const Node* node = fields.get("ending")) stand.ending = read_ending(*node, out);
  if (const Node* node = fields.get("yield")) stand.yield = read_measure(*node, kYield, out);
  if (const Node* node = fields.get("resistance")) {
    const auto resistance = read_choice<Resistance>(*node, "a degree of resistance",
                                                    {{"none", Resistance::None},
                                                     {"tolerant", Resistance::Tolerant},
                                                     {"resistant", Resistance::Resistant}},
                                                    out);
    if (resistance) stand.resistance = *resistance;
  }
  if (const Node* node = fields.get("partners")) {
    for (const Node* item : list_of(*node)) {
      if (const auto partner = read_partner(*item, lookup, out)) stand.partners.push_back(*partner);
    }
  }
}

bool report_order(const Stand& stand, std::string message, std::string help, Diagnostics& out) {
  out.error("date-order", std::move(message), stand.source, std::move(help));
  return false;
}

bool check_order(const Stand& stand, Diagnostics& out) {
  if (stand.from && stand.to && *stand.to <= *stand.from) {
    return report_order(stand,
                        fmt::format("the stand ends on {}, not after its start on {}",
                                    stand.to->text(), stand.from->text()),
                        "`to:` is the first day on which the bed is free again", out);
  }
  if (stand.from && stand.to &&
      calendar::days_between(*stand.from, *stand.to) > kLongestStandDays) {
    return report_order(stand, "the stand is longer than 25 years", "check the years", out);
  }
  if (stand.raised && stand.from && *stand.raised > *stand.from) {
    return report_order(stand,
                        fmt::format("raised from {}, after it was set out on {}",
                                    stand.raised->text(), stand.from->text()),
                        "`raised:` is the day of sowing under cover", out);
  }
  if (!stand.harvest) return true;
  if (stand.from && stand.harvest->first < *stand.from) {
    return report_order(stand,
                        fmt::format("the harvest begins on {}, before the stand on {}",
                                    stand.harvest->first.text(), stand.from->text()),
                        "check the dates", out);
  }
  if (stand.to && stand.harvest->first > *stand.to) {
    return report_order(stand,
                        fmt::format("the harvest begins on {}, after the stand ended on {}",
                                    stand.harvest->first.text(), stand.to->text()),
                        "check the dates", out);
  }
  return true;
}

}  // namespace

Ending usual_ending(const catalogue::Crop& crop, garden::Tillage tillage, bool frost_kills) {
  if (!crop.is_cover()) {
    return crop.root_harvest() ? Ending::HarvestedPulled : Ending::HarvestedCut;
  }
  for (const Ending ending : crop.cover->endings) {
    if (tillage == garden::Tillage::None && ending == Ending::Incorporated) continue;
    if (ending == Ending::Winterkilled && !frost_kills) continue;
    return ending;
  }
  return Ending::CutRootsLeft;
}

std::optional<Stand> read_stand(const Node& node, Lookup& lookup, Diagnostics& out) {
  const Fields fields(node, "a stand",
                      {"bed", "crop", "from", "to", "year", "raised", "harvest", "ending",
                       "resistance", "partners", "yield", "dry_matter", "height", "nitrogen"},
                      out);
  const Node* bed = fields.need("bed", out);
  const Node* name = fields.need("crop", out);
  if (!fields.is_table()) return {};
  Stand stand;
  stand.source = name != nullptr ? name->source : node.source;
  const int errors = out.count(diagnostic::Severity::Error);
  if (bed != nullptr) stand.beds = lookup.beds(*bed, out);
  const auto crop = name != nullptr ? lookup.crop(*name, out) : std::nullopt;
  read_dates(fields, stand, out);
  read_rest(fields, lookup, stand, out);
  if (!crop || stand.beds.empty()) return {};
  stand.crop = *crop;
  read_cover_growth(fields, lookup.catalogue(), stand, out);
  if (!stand.from && !stand.year) {
    if (out.count(diagnostic::Severity::Error) == errors) {
      out.error("missing-key", "a stand needs a start", node.source,
                "add `from: 2027-05-20`, or `year: 2027` to have the dates filled in");
    }
    return {};
  }
  if (!check_order(stand, out)) return {};
  return stand;
}

}  // namespace aftercrop::load
