#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercrop/catalogue/provenance.h"
#include "load/catalogue_tables.h"
#include "load/citations.h"

// Who says the figures of a crop: what a file of the user's own changes is the user's word, the
// rest stays with its sources.
namespace aftercrop::load {
namespace {

using catalogue::Citation;
using catalogue::Crop;

/// A key of a crop's row, and the group of figures that it belongs to.
struct Key {
  std::string_view path;
  std::string_view of_crop;   ///< empty = none
  std::string_view of_cover;  ///< empty = none
  bool figure = true;         ///< false: a word that goes with the figures
};

constexpr std::array<Key, 53> kKeys = {{
    {"yield.per_m2", "yield", "", true},
    {"yield.unit", "yield", "", false},
    {"days.least", "days", "days", true},
    {"days.most", "days", "days", true},
    {"days.from", "days", "days", false},
    {"seed.mass_mg", "seed", "", true},
    {"seed.class", "seed", "", false},
    {"spacing.in_row_cm", "spacing", "", true},
    {"spacing.between_rows_cm", "spacing", "", true},
    {"spacing.depth_cm", "spacing", "", true},
    {"hardiness.kill_c", "frost", "kill", true},
    {"hardiness.class", "frost", "kill", false},
    {"hardiness.sowing_class", "sowing_class", "", true},
    {"root_depth_cm", "root", "root_depth", true},
    {"temperature.base_c", "temperature", "temperature", true},
    {"temperature.cap_c", "temperature", "temperature", true},
    {"temperature.soil_min_c", "soil_minimum", "temperature", true},
    {"temperature.soil_max_c", "soil_maximum", "", true},
    {"temperature.growth_c", "growth_limits", "temperature", true},
    {"temperature.spring_min_c", "spring_minimum", "temperature", false},
    {"temperature.setting", "setting", "", true},
    {"temperature.setting.weeks", "setting_weeks", "", true},
    {"nitrogen.yield_t_ha", "nitrogen", "uptake", true},
    {"nitrogen.uptake_kg_ha", "nitrogen", "uptake", true},
    {"nitrogen.harvest_kg_per_t", "nitrogen", "uptake", true},
    {"nitrogen.residue_n_pct", "nitrogen", "uptake", true},
    {"nitrogen.step_kg_ha", "nitrogen", "uptake", true},
    {"nitrogen.depth_cm", "nitrogen", "uptake", true},
    {"nitrogen.residual_kg_ha", "nitrogen", "uptake", true},
    {"nitrogen.curve", "nitrogen", "uptake", false},
    {"nitrogen.below_ground_share", "below_ground", "below_ground", true},
    {"nitrogen.root_n_pct", "below_ground", "below_ground", true},
    {"fixation.share", "fixation", "fixation", true},
    {"fixation.ceiling", "fixation", "fixation", true},
    {"harvest.weeks", "harvest", "", true},
    {"harvest.mode", "harvest", "", false},
    {"work", "harvest", "", true},
    {"smallest_stand_m2", "harvest", "", true},
    {"cover.seed_g_m2", "", "seed_rate", true},
    {"cover.biomass_t_ha", "", "biomass", true},
    {"cover.n_pct.vegetative", "", "nitrogen", true},
    {"cover.n_pct.flowering", "", "nitrogen", true},
    {"cover.n_pct.mature", "", "nitrogen", true},
    {"cover.root_n_share", "", "below_ground", true},
    {"cover.wait_weeks.small_seed", "", "wait", true},
    {"cover.wait_weeks.large_seed", "", "wait", true},
    {"cover.wait_weeks.transplants", "", "wait", true},
    {"cover.windows", "", "windows", true},
    {"cover.weeks_to_stand", "", "stand", true},
    {"cover.regrowth", "", "stand", true},
    {"cover.weed_suppression", "", "stand", true},
    {"cover.fumigant", "", "fumigant", true},
    {"cover.endings", "", "endings", true},
}};

/// Words of a crop that have no group of figures: each is its own topic.
constexpr std::array<std::string_view, 9> kWords = {
    "start", "life", "calendar", "support", "feeder", "residue", "edible_part", "cautions", "kind"};

bool says(const RowFields& row, std::string_view path) {
  const std::size_t first = path.find('.');
  const Node* node = row.get(path.substr(0, first));
  while (node != nullptr && path.find('.') != std::string_view::npos) {
    path = path.substr(path.find('.') + 1);
    node = node->is_map() ? node->find(path.substr(0, path.find('.'))) : nullptr;
  }
  return node != nullptr;
}

std::string_view topic_of(const Key& key, const Crop& crop) {
  return crop.is_cover() ? key.of_cover : key.of_crop;
}

std::vector<Citation> under(const std::vector<Citation>& sources, std::string_view topic) {
  std::vector<Citation> found;
  std::copy_if(sources.begin(), sources.end(), std::back_inserter(found),
               [&](const Citation& one) { return one.topic == topic; });
  return found;
}

/// Every figure of the topic is given by the row.
bool whole(const RowFields& row, const Crop& crop, std::string_view topic) {
  return std::all_of(kKeys.begin(), kKeys.end(), [&](const Key& key) {
    return topic_of(key, crop) != topic || !key.figure || says(row, key.path);
  });
}

class OwnWord {
 public:
  OwnWord(const RowFields& row, CatalogueBuild& build) : row_(&row) {
    const diagnostic::Source& at = row.source();
    file_ = fmt::format("as given in {}, line {}", at.file->name, at.line);
    if (const Node* node = row.get("source")) {
      read_source(*node, build.rows.bibliography, given_, build.out);
    }
  }

  /// A row that is like no other.
  void open(Crop& crop) const {
    crop.sources = given_;
    if (catalogue::source_of(given_, "rest") == nullptr) crop.sources.push_back({"all", file_, ""});
  }

  void change(Crop& crop) const {
    std::vector<std::string_view> topics;
    const auto touch = [&](std::string_view topic) {
      const bool fresh = std::find(topics.begin(), topics.end(), topic) == topics.end();
      if (fresh && !topic.empty()) topics.push_back(topic);
    };
    for (const Key& key : kKeys) {
      if (says(*row_, key.path)) touch(topic_of(key, crop));
    }
    for (const std::string_view word : kWords) {
      if (says(*row_, word)) touch(word);
    }
    for (const Citation& one : given_) {
      if (one.topic != "all" && one.topic != "rest") touch(one.topic);
    }
    for (const std::string_view topic : topics) put(crop, std::string(topic));
  }

 private:
  /// The user's word first; what it changes in part keeps its source beside it.
  void put(Crop& crop, const std::string& topic) const {
    std::vector<Citation> kept;
    const Citation* before = catalogue::source_of(crop.sources, topic);
    const bool named = !under(given_, topic).empty();
    if (before != nullptr && !named && !whole(*row_, crop, topic)) {
      kept = under(crop.sources, before->topic);
    }
    std::erase_if(crop.sources, [&](const Citation& one) { return one.topic == topic; });
    std::vector<Citation> said;
    if (const Citation* mine = catalogue::source_of(given_, topic))
      said = under(given_, mine->topic);
    if (said.empty()) said.push_back({topic, file_, ""});
    said.insert(said.end(), kept.begin(), kept.end());
    for (Citation& one : said) {
      one.topic = topic;
      crop.sources.push_back(std::move(one));
    }
  }

  const RowFields* row_;
  std::string file_;
  std::vector<Citation> given_;
};

}  // namespace

void read_crop_source(const RowFields& row, Crop& crop, CatalogueBuild& build) {
  if (!build.over_base) return read_row_source(row, build, crop.sources);
  const OwnWord own(row, build);
  if (crop.sources.empty()) return own.open(crop);
  own.change(crop);
}

}  // namespace aftercrop::load
