#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>
#include <utility>

#include "aftercrop/load/load.h"
#include "load/beds.h"
#include "load/plan_rows.h"
#include "load/site.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::Garden;

constexpr double kBedLengthM = 5.0;
constexpr double kBedWidthM = 1.0;
constexpr int kMostSections = 26;

/// The beds that the rows of a plan speak of, each with its greatest section.
struct Names {
  std::map<std::string, int> sections;
  std::size_t accounts = 0;
  const diagnostic::Source* beyond = nullptr;  ///< the first that is one too many
};

void add_name(const std::string& name, int least_sections, const diagnostic::Source& said,
              Names& names) {
  const std::size_t point = name.rfind('.');
  const auto section = point == std::string::npos
                           ? std::nullopt
                           : plain_whole(std::string_view(name).substr(point + 1));
  const bool sane = section && *section >= 1 && *section <= kMostSections;
  int& sections = names.sections[sane ? name.substr(0, point) : name];
  const int most = std::max({sections, sane ? *section : 1, least_sections});
  names.accounts += static_cast<std::size_t>(most - sections);
  sections = most;
  if (names.accounts > kMostAccounts && names.beyond == nullptr) names.beyond = &said;
}

void add_names(const Node* node, int least_sections, Names& names) {
  if (node == nullptr) return;
  for (const Node* item : list_of(*node)) {
    if (!item->is_scalar()) continue;
    for (const std::string& name : expand_range(item->text)) {
      add_name(name, least_sections, item->source, names);
    }
  }
}

/// Crops side by side in a cell: "a + b" stands for two.
int side_by_side(const Node& node) {
  int most = 1;
  if (node.is_scalar()) {
    for (std::size_t at = node.text.find(" + "); at != std::string::npos;
         at = node.text.find(" + ", at + 3)) {
      ++most;
    }
    return std::min(most, kMostSections);
  }
  for (const auto& item : node.items) most = std::max(most, side_by_side(item));
  return most;
}

Names bed_names(const Node& root) {
  Names names;
  const Node* plantings = root.find("plantings");
  if (plantings != nullptr) {
    for (const Node* item : list_of(*plantings)) {
      if (item->is_map()) add_names(item->find("bed"), 1, names);
    }
  }
  const Node* rotation = root.find("rotation");
  const Node* beds = rotation != nullptr ? rotation->find("beds") : nullptr;
  if (beds != nullptr && beds->is_map()) {
    for (std::size_t i = 0; i < beds->keys.size(); ++i) {
      add_name(beds->keys[i], side_by_side(beds->items[i]), beds->key_sources[i], names);
    }
  } else {
    const Node* cycle = rotation != nullptr ? rotation->find("cycle") : nullptr;
    add_names(beds, cycle != nullptr ? side_by_side(*cycle) : 1, names);
  }
  return names;
}

void make_beds(const Node& root, const Names& names, const catalogue::Catalogue& rows,
               Garden& garden) {
  for (const auto& [name, sections] : names.sections) {
    for (int i = 1; i <= sections; ++i) {
      garden::Bed bed;
      bed.whole = name;
      bed.name = sections == 1 ? name : fmt::format("{}.{}", name, i);
      bed.section = sections == 1 ? 0 : i;
      bed.sections = sections;
      bed.length = units::Metres(kBedLengthM / sections);
      bed.width = units::Metres(kBedWidthM);
      bed.area = units::SquareMetres(kBedLengthM * kBedWidthM / sections);
      bed.soil = rows.find_soil("loam").value_or(catalogue::SoilId(0));
      bed.source = root.source;
      garden.beds.push_back(bed);
    }
  }
}

/// The seasons in which the stands of the plan begin. Covers alone do not open one: one that leads
/// to the first crop of its bed says nothing of the other beds' year before.
calendar::WeekSpan seasons_of(const garden::Plan& plan, const catalogue::Catalogue& rows,
                              const StandYears& years) {
  std::optional<int> first;
  int earliest = years.season_of(calendar::week_of(plan.plantings.front().from));
  int last = earliest;
  for (const garden::Planting& one : plan.plantings) {
    const int season = years.season_of(calendar::week_of(one.from));
    earliest = std::min(earliest, season);
    last = std::max(last, season);
    if (!rows.crop(one.crop).is_cover()) first = std::min(first.value_or(season), season);
  }
  return {years.season_start(first.value_or(earliest)), years.season_start(last + 1)};
}

/// What stands before the seasons begin is on record for its bed.
void record_covers_before(const garden::Plan& plan, Garden& garden) {
  for (const garden::Planting& one : plan.plantings) {
    if (garden::weeks_of(one).first < garden.seasons.first) garden.history.push_back(one);
  }
  std::stable_sort(garden.history.begin(), garden.history.end(), [](const auto& a, const auto& b) {
    return std::pair(a.bed, a.from) < std::pair(b.bed, b.from);
  });
}

std::optional<Proposal> read_proposal(const Node& root, const std::string& path,
                                      const catalogue::Catalogue& base, const ReadText& read,
                                      Diagnostics& out) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const Node* site_node = root.find("site");
  if (site_node == nullptr) {
    out.error("missing-key", "a plan without a garden needs a site", root.source,
              "add `site: {climate: NAME}`, or name the garden file before the plan");
    return {};
  }
  const auto site = read_site(*site_node, {&base, &read, folder}, out);
  if (!site) return {};
  Proposal proposal{{base, {}}, {}};
  Garden& garden = proposal.garden.garden;
  garden.site = *site;
  garden.source = root.source;
  const Names names = bed_names(root);
  if (names.beyond != nullptr) {
    report_too_many_beds(*names.beyond, out);
    return {};
  }
  make_beds(root, names, base, garden);
  StandYears years(site->normals, base.coefficients.site);
  garden.seasons = {years.season_start(2027), years.season_start(2028)};
  Lookup lookup(base);
  lookup.add_beds(garden.beds);
  Assumed assumed;
  const RecordContext context{{&base, &garden, &years, &assumed}, &lookup, &read, folder};
  auto plan = read_plan(root, context, out);
  if (!plan) return {};
  if (plan->plantings.empty()) {
    out.error("empty-plan", "the plan has no stands", root.source,
              "add `plantings:` or `rotation:`");
    return {};
  }
  garden.name = plan->name;
  garden.seasons = seasons_of(*plan, base, years);
  record_covers_before(*plan, garden);
  garden.years = years.season_of(garden.seasons.past - calendar::Weeks(1)) -
                 years.season_of(garden.seasons.first) + 1;
  assumed.add(
      fmt::format("beds of {:g} m2, loam, 3 % organic matter, pH 6.5, watered, past unknown",
                  kBedLengthM * kBedWidthM));
  assumed.tell(root.source, out);
  proposal.plan = std::move(*plan);
  return proposal;
}

}  // namespace

std::optional<Proposal> load_proposal(const std::string& path, const catalogue::Catalogue& base,
                                      const ReadText& read, Diagnostics& out) {
  Diagnostics found;
  const auto root = read_file(path, read, {}, found);
  std::optional<Proposal> proposal;
  if (root && !root->is_map()) {
    const Fields report(*root, "a plan", {"plan", "made_by", "site", "plantings", "rotation"},
                        found);
  } else if (root) {
    proposal = read_proposal(*root, path, base, read, found);
  }
  found.sort();
  out.append(found);
  return found.has_errors() ? std::nullopt : std::move(proposal);
}

}  // namespace aftercrop::load
