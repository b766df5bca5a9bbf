#include <fmt/format.h>

#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::CoverFigures;
using catalogue::CoverWindow;
using catalogue::Ending;
using catalogue::FrostAnchor;
using catalogue::Fumigant;
using catalogue::Regrowth;
using diagnostic::Diagnostics;

const std::vector<std::pair<std::string_view, Regrowth>> kRegrowth = {{"none", Regrowth::None},
                                                                      {"low", Regrowth::Low},
                                                                      {"medium", Regrowth::Medium},
                                                                      {"high", Regrowth::High}};
const std::vector<std::pair<std::string_view, Fumigant>> kFumigants = {
    {"none", Fumigant::None},
    {"glucosinolate", Fumigant::Glucosinolate},
    {"dhurrin", Fumigant::Dhurrin}};

void read_anchor(const RowFields& row, std::string_view key, FrostAnchor& anchor, int& weeks,
                 Diagnostics& out) {
  const Node* node = row.get(key);
  if (node == nullptr) return;
  const RowFields fields(*node, key, {"last-frost", "first-frost"}, out);
  const bool last = fields.get("last-frost") != nullptr;
  if (last == (fields.get("first-frost") != nullptr)) {
    out.error("wrong-shape", fmt::format("{} hangs on one frost", key), node->source,
              "write `{last-frost: -4}` or `{first-frost: -8}`, in weeks");
    return;
  }
  anchor = last ? FrostAnchor::LastFrost : FrostAnchor::FirstFrost;
  fields.whole(last ? "last-frost" : "first-frost", weeks, {-40, 40});
}

void read_windows(const RowFields& row, std::vector<CoverWindow>& windows, Diagnostics& out) {
  const Node* node = row.get("windows");
  if (node == nullptr) return;
  windows.clear();
  for (const Node* one : read_list(*node, "windows", out)) {
    const RowFields fields(*one, "a sowing window", {"from", "to"}, out);
    fields.need({"from", "to"});
    CoverWindow window;
    read_anchor(fields, "from", window.from_anchor, window.from_weeks, out);
    read_anchor(fields, "to", window.to_anchor, window.to_weeks, out);
    windows.push_back(window);
  }
}

void read_endings(const RowFields& row, std::vector<Ending>& endings, Diagnostics& out) {
  const Node* node = row.get("endings");
  if (node == nullptr) return;
  endings.clear();
  for (const Node* one : list_of(*node)) {
    if (const auto ending = catalogue::parse_ending(one->text)) {
      endings.push_back(*ending);
    } else {
      report_unknown("unknown-ending", "a way a stand ends", *one,
                     {catalogue::kEndingNames.begin(), catalogue::kEndingNames.end()}, out);
    }
  }
}

void read_composition(const RowFields& row, CoverFigures& cover, Diagnostics& out) {
  row.range("biomass_t_ha", cover.biomass_t_ha, {0.1, 30});
  if (const Node* node = row.get("n_pct")) {
    const RowFields fields(*node, "n_pct", {"vegetative", "flowering", "mature"}, out);
    fields.number("vegetative", cover.n_pct[0], {0.2, 8});
    fields.number("flowering", cover.n_pct[1], {0.2, 8});
    fields.number("mature", cover.n_pct[2], {0.2, 8});
    check_order(cover.n_pct[2], cover.n_pct[1], "n_pct, backwards,", node->source, out);
    check_order(cover.n_pct[1], cover.n_pct[0], "n_pct, backwards,", node->source, out);
  }
  row.number("root_n_share", cover.root_n_share, {0, 0.8});
  if (const Node* node = row.get("fumigant")) {
    const RowFields fields(*node, "fumigant", {"kind", "species_factor"}, out);
    fields.choice("kind", cover.fumigant, kFumigants);
    fields.number("species_factor", cover.fumigant_species_factor, {0, 1});
  }
  if (const Node* node = row.get("wait_weeks")) {
    const RowFields fields(*node, "wait_weeks", {"small_seed", "large_seed", "transplants"}, out);
    fields.whole("small_seed", cover.wait_weeks[0], {0, 20});
    fields.whole("large_seed", cover.wait_weeks[1], {0, 20});
    fields.whole("transplants", cover.wait_weeks[2], {0, 20});
  }
}

}  // namespace

void read_cover(const RowFields& row, catalogue::Crop& crop, Diagnostics& out) {
  const Node* node = row.get("cover");
  if (node == nullptr) {
    if (crop.kind == "cover" && !crop.cover) {
      out.error("missing-key", fmt::format("{} is a cover and needs \"cover\"", crop.id),
                row.source(), "add `cover:` with its windows, biomass and endings");
    }
    return;
  }
  const bool fresh = !crop.cover.has_value();
  if (fresh) crop.cover.emplace();
  const RowFields fields(
      *node, "cover",
      {"windows", "seed_g_m2", "weeks_to_stand", "biomass_t_ha", "n_pct", "root_n_share", "endings",
       "crimp_at_flowering", "regrowth", "fumigant", "weed_suppression", "wait_weeks"},
      out);
  if (fresh) fields.need({"windows", "weeks_to_stand", "biomass_t_ha", "n_pct", "endings"});
  CoverFigures& cover = *crop.cover;
  read_windows(fields, cover.windows, out);
  fields.number("seed_g_m2", cover.seed_g_m2, {0.05, 100});
  fields.whole("weeks_to_stand", cover.weeks_to_stand, {1, 52});
  read_composition(fields, cover, out);
  read_endings(fields, cover.endings, out);
  fields.yes_no("crimp_at_flowering", cover.crimp_at_flowering);
  fields.choice("regrowth", cover.regrowth, kRegrowth);
  fields.whole("weed_suppression", cover.weed_suppression, {1, 4});
}

}  // namespace aftercrop::load
