#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "aftercrop/load/load.h"
#include "aftercrop/load/names.h"
#include "load/beds.h"
#include "load/history.h"
#include "load/plan_rows.h"
#include "load/records.h"
#include "load/seasons.h"
#include "load/settings.h"
#include "load/site.h"
#include "load/wants.h"

namespace aftercrop::load {
namespace {

using catalogue::Catalogue;
using diagnostic::Diagnostics;
using garden::Garden;

constexpr int kWeeksOfYear = 53;
// Read with where the seasons of a file are not understood.
constexpr int kStandInSeason = 2027;

std::string folder_of(const std::string& path) {
  return std::filesystem::path(path).parent_path().string();
}

std::string folder_name(const std::string& path) {
  std::error_code problem;
  const auto full = std::filesystem::absolute(path, problem);
  const std::string name = problem ? std::string() : full.parent_path().filename().string();
  return name.empty() ? std::string("garden") : name;
}

/// Weeks in which season-years can be looked up before the seasons are known.
climate::SiteClimate season_years_of(const garden::Site& site, const Catalogue& rows) {
  const calendar::Week first = *calendar::parse_week("2027-W01");
  return {site.normals,
          garden::Shelter::Open,
          {first, first + calendar::Weeks(kWeeksOfYear)},
          rows.coefficients.site};
}

/// Reads the keys of one garden file in the order in which they need each other.
class GardenReader {
 public:
  GardenReader(const Fields& fields, std::string path, const Catalogue& rows, const ReadText& read,
               Diagnostics& out)
      : fields_(fields), path_(std::move(path)), read_(read), out_(out), lookup_(rows) {}

  std::optional<Garden> read() {
    read_place();
    read_words();
    years_.emplace(garden_.site.normals, lookup_.catalogue().coefficients.site);
    read_past();
    read_rest();
    assumed_.tell(fields_.source(), out_);
    return std::move(garden_);
  }

 private:
  void read_place() {
    garden_.source = fields_.source();
    if (const Node* name = fields_.get("garden")) {
      garden_.name = read_text(*name, "the name of the garden", out_).value_or("garden");
    } else {
      garden_.name = folder_name(path_);
      assumed_.add(fmt::format("the name \"{}\"", garden_.name));
    }
    std::optional<garden::Site> site;
    if (const Node* node = fields_.need("site", out_, "{climate: boston}")) {
      site = read_site(*node, {&lookup_.catalogue(), &read_, folder_of(path_)}, out_);
    }
    garden_.site = site ? *site : stand_in_site();
    read_span();
    read_beds();
  }

  /// Any climate: the rest of a file whose site was not understood is read all the same, so that
  /// all its mistakes are told.
  garden::Site stand_in_site() {
    const auto& climates = lookup_.catalogue().climates;
    garden::Site site;
    if (!climates.empty()) site.normals = climates.front();
    return site;
  }

  void read_span() {
    const climate::SiteClimate years = season_years_of(garden_.site, lookup_.catalogue());
    std::optional<Seasons> seasons;
    if (const Node* node = fields_.need("seasons", out_, "2027")) {
      seasons = read_seasons(*node, years, out_);
    }
    seasons_ = seasons.value_or(season_of(kStandInSeason, years));
    garden_.seasons = seasons_.span;
    garden_.years = static_cast<int>(seasons_.years.size());
  }

  void read_beds() {
    BedContext context{&lookup_.catalogue(), std::nullopt, std::nullopt, &assumed_};
    if (const Node* irrigation = fields_.get("irrigation")) {
      context.watered = read_yes_no(*irrigation, "irrigation", out_);
    }
    if (const Node* soil = fields_.get("soil")) {
      context.ground = read_ground(*soil, lookup_.catalogue(), out_);
    }
    if (const Node* node = fields_.need("beds", out_, "6 of 8 ft x 4 ft")) {
      read_units(*node);
      context.units = garden_.units;
      garden_.beds = read_garden_beds(*node, context, out_);
    }
    lookup_.add_beds(garden_.beds);
  }

  /// As the garden says, else those in which its beds are measured.
  void read_units(const Node& beds) {
    using garden::UnitSystem;
    const auto feet = [](const Node& bed) {
      const Node* length = bed.is_map() ? bed.find("length") : &bed;
      return length != nullptr && length->is_scalar() &&
             (length->text.find("ft") != std::string::npos ||
              length->text.find('\'') != std::string::npos);
    };
    const std::vector<const Node*> rows = list_of(beds);
    if (std::any_of(rows.begin(), rows.end(), [&](const Node* bed) { return feet(*bed); })) {
      garden_.units = UnitSystem::Us;
    }
    const Node* node = fields_.get("units");
    if (node == nullptr) return;
    const auto units = read_choice<UnitSystem>(
        *node, "a system of units", {{"metric", UnitSystem::Metric}, {"us", UnitSystem::Us}}, out_);
    if (units) garden_.units = *units;
  }

  void read_words() {
    using garden::Tillage;
    if (const Node* node = fields_.get("tillage")) {
      const auto tillage = read_choice<Tillage>(
          *node, "a way to till",
          {{"none", Tillage::None}, {"hand", Tillage::Hand}, {"machine", Tillage::Machine}}, out_);
      if (tillage) garden_.tillage = *tillage;
    }
    if (const Node* node = fields_.get("people")) {
      for (const Node* item : list_of(*node)) {
        const auto who =
            read_choice<bool>(*item, "people to look after", {{"children", true}}, out_);
        garden_.children = garden_.children || who.has_value();
      }
    }
    if (const Node* node = fields_.get("pests")) {
      for (const Node* item : read_list(*node, "pests", out_)) {
        if (const auto pest = read_text(*item, "a pest", out_)) {
          garden_.pests.push_back(canonical_word(*pest));
          note_unknown_pest(*item);
        }
      }
    }
    if (const Node* node = fields_.get("materials")) {
      for (const Node* item : list_of(*node)) {
        const auto id = lookup_.amendment(*item, out_);
        if (id) garden_.materials.push_back(lookup_.catalogue().amendment(*id).id);
      }
    }
  }

  /// A pest matters by the partner plants that answer it: one without any is told.
  void note_unknown_pest(const Node& node) {
    std::set<std::string> known;
    for (const catalogue::PartnerRow& row : lookup_.catalogue().partners) {
      known.insert(row.pests.begin(), row.pests.end());
    }
    if (known.empty() || known.contains(garden_.pests.back())) return;
    const auto near = did_you_mean(node.text, {known.begin(), known.end()});
    out_.note("unknown-pest",
              fmt::format("no partner plant of the catalogue is there for \"{}\"", node.text),
              node.source,
              near ? fmt::format("did you mean \"{}\"?", *near)
                   : fmt::format("there are some for {}", fmt::join(known, ", ")));
  }

  void read_past() {
    const Node* history = fields_.get("history");
    if (history == nullptr) assumed_.add("past unknown");
    if (garden_.beds.empty()) return;
    const RecordContext context{
        {&lookup_.catalogue(), &garden_, &*years_, &assumed_}, &lookup_, &read_, folder_of(path_)};
    garden_.history = read_history(history, fields_.get("keep"), context, out_);
  }

  void read_rest() {
    if (const Node* node = fields_.get("rules")) read_rules(*node, garden_.policy, out_);
    if (const Node* node = fields_.get("work")) garden_.hands = read_work(*node, out_);
    if (const Node* node = fields_.get("costs")) garden_.costs = read_costs(*node, out_);
    if (garden_.beds.empty()) return;
    if (const Node* node = fields_.get("accept")) read_accept(*node, lookup_, garden_.policy, out_);
    if (const Node* node = fields_.get("tests")) {
      garden_.tests = read_tests(*node, garden_, lookup_, out_);
    }
    if (const Node* node = fields_.get("amendments")) {
      garden_.applications = read_amendments(*node, garden_, lookup_, out_);
    }
    if (const Node* node = fields_.get("sightings")) {
      garden_.sightings = read_sightings(*node, garden_, lookup_, out_);
    }
    const Node* wants = fields_.get("wants");
    if (wants == nullptr) return;
    garden_.wants = read_wants(*wants, {&garden_, &seasons_, &lookup_}, out_);
  }

  const Fields& fields_;
  std::string path_;
  const ReadText& read_;
  Diagnostics& out_;
  Lookup lookup_;
  Assumed assumed_;
  Garden garden_;
  Seasons seasons_;
  std::optional<StandYears> years_;
};

const std::vector<std::string_view> kKeys = {
    "garden",     "site",      "units",   "seasons", "beds",  "soil",      "history", "tests",
    "amendments", "sightings", "wants",   "pests",   "keep",  "rules",     "accept",  "work",
    "costs",      "materials", "tillage", "people",  "crops", "irrigation"};

}  // namespace

std::optional<LoadedGarden> load_garden(const std::string& path, const Catalogue& base,
                                        const ReadText& read, Diagnostics& out) {
  Diagnostics found;
  const auto finish = [&](std::optional<LoadedGarden> loaded) {
    found.sort();
    out.append(found);
    return found.has_errors() ? std::nullopt : std::move(loaded);
  };
  const auto root = read_file(path, read, {}, found);
  if (!root) return finish({});
  if (root->find("plantings") != nullptr || root->find("rotation") != nullptr) {
    found.error("plan-for-garden", "this is a plan, where a garden is asked for", root->source,
                "name the garden file first, then the plan; `aftercrop check` alone takes a plan "
                "that has a `site:` of its own");
    return finish({});
  }
  const Fields fields(*root, "the garden", kKeys, found);
  if (!fields.is_table()) return finish({});
  LoadedGarden loaded{base, {}};
  if (const Node* crops = fields.get("crops")) {
    const auto file = read_text(*crops, "a file of crops", found);
    auto more =
        file ? load_catalogue(base, beside(folder_of(path), *file), read, found) : std::nullopt;
    if (more) loaded.catalogue = std::move(*more);
  }
  auto garden = GardenReader(fields, path, loaded.catalogue, read, found).read();
  if (garden) loaded.garden = std::move(*garden);
  return finish(std::move(loaded));
}

}  // namespace aftercrop::load
