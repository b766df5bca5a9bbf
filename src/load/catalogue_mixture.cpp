#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "load/catalogue_tables.h"
#include "load/lookup.h"

// A mixture of covers is worked out from the rows of its parts: what is added up is weighted with
// the share of the ground, nitrogen with the dry matter that it is in. Source: Univ. of Maryland
// Extension, Cover crops for gardens (60 % of each sole rate in a mixture of two); arithmetic.
namespace aftercrop::load {
namespace {

using catalogue::CoverFigures;
using catalogue::CoverWindow;
using catalogue::Crop;
using catalogue::CropId;
using catalogue::MixturePart;

constexpr double kSeedFactor = 1.2;     // of the share: 60 % of the sole rate at half the ground
constexpr double kWholeWithin = 0.005;  // shares add up to 1 within this
const std::vector<std::string_view> kMixtureKeys = {"id", "name", "also", "parts", "source"};

/// 0.6, or 60 %.
std::optional<double> read_share(const Node& node, CatalogueBuild& build) {
  const auto text = read_text(node, "a share", build.out);
  if (!text) return {};
  const bool percent = text->ends_with('%');
  std::string digits = percent ? text->substr(0, text->size() - 1) : *text;
  while (!digits.empty() && digits.back() == ' ') digits.pop_back();
  const auto number = plain_number(digits);
  const double share = number ? (percent ? *number / 100.0 : *number) : -1.0;
  if (share > 0.0 && share < 1.0) return share;
  build.out.error("out-of-range", fmt::format("\"{}\" is not a share of a mixture", *text),
                  node.source, "write a percentage between 0 and 100: 60 %");
  return {};
}

std::vector<MixturePart> read_parts(const Node& node, CatalogueBuild& build) {
  std::vector<MixturePart> parts;
  if (!node.is_map()) {
    build.out.error("wrong-shape", "parts must be a table of covers and shares", node.source,
                    "write `parts: {rye: 60 %, hairy-vetch: 40 %}`");
    return parts;
  }
  double sum = 0.0;
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    Node name;
    name.kind = Node::Kind::Scalar;
    name.text = node.keys[i];
    name.source = node.key_sources[i];
    const auto place = find_row(build.rows.crops, name, "a cover", "unknown-crop", build.out);
    const auto share = read_share(node.items[i], build);
    if (!place || !share) return {};
    const Crop& crop = build.rows.crops[*place];
    if (!crop.is_cover() || !crop.mixture.empty()) {
      build.out.error("not-a-cover", fmt::format("{} is no cover of its own", crop.id), name.source,
                      "a mixture is made of single covers: `aftercrop crops --cover` lists them");
      return {};
    }
    parts.push_back({CropId(*place), *share});
    sum += *share;
  }
  if (parts.size() >= 2 && std::abs(sum - 1.0) <= kWholeWithin) return parts;
  build.out.error("wrong-count",
                  fmt::format("the shares of {} parts add up to {:g} %", parts.size(), 100.0 * sum),
                  node.source, "name two covers or more, and make their shares add up to 100 %");
  return {};
}

/// Sum over the parts of share times a figure.
template <class Figure>
double mean(const std::vector<MixturePart>& parts, const catalogue::Catalogue& rows,
            Figure figure) {
  double sum = 0.0;
  for (const MixturePart& part : parts) sum += part.share * figure(rows.crop(part.crop));
  return sum;
}

/// Windows that all parts share, frost by frost.
std::vector<CoverWindow> shared_windows(const std::vector<MixturePart>& parts,
                                        const catalogue::Catalogue& rows) {
  std::vector<CoverWindow> shared = rows.crop(parts.front().crop).cover->windows;
  for (const MixturePart& part : parts) {
    std::vector<CoverWindow> left;
    for (const CoverWindow& one : shared) {
      for (const CoverWindow& other : rows.crop(part.crop).cover->windows) {
        if (one.from_anchor != other.from_anchor || one.to_anchor != other.to_anchor) continue;
        CoverWindow both = one;
        both.from_weeks = std::max(one.from_weeks, other.from_weeks);
        both.to_weeks = std::min(one.to_weeks, other.to_weeks);
        const bool one_frost = one.from_anchor == one.to_anchor;
        if (!one_frost || both.from_weeks <= both.to_weeks) left.push_back(both);
      }
    }
    shared = left;
  }
  return shared;
}

/// What the slowest, the weediest and the hardest to end of the parts decides.
void take_strictest(CoverFigures& mixed, const CoverFigures& own) {
  mixed.weeks_to_stand = std::max(mixed.weeks_to_stand, own.weeks_to_stand);
  mixed.regrowth = std::max(mixed.regrowth, own.regrowth);
  mixed.weed_suppression = std::max(mixed.weed_suppression, own.weed_suppression);
  mixed.crimp_at_flowering = mixed.crimp_at_flowering && own.crimp_at_flowering;
  for (std::size_t i = 0; i < mixed.wait_weeks.size(); ++i) {
    mixed.wait_weeks[i] = std::max(mixed.wait_weeks[i], own.wait_weeks[i]);
  }
  std::erase_if(mixed.endings, [&](catalogue::Ending one) {
    return std::find(own.endings.begin(), own.endings.end(), one) == own.endings.end();
  });
}

CoverFigures mixed_cover(const std::vector<MixturePart>& parts, const catalogue::Catalogue& rows) {
  CoverFigures mixed = *rows.crop(parts.front().crop).cover;
  mixed.windows = shared_windows(parts, rows);
  mixed.seed_g_m2 =
      mean(parts, rows, [](const Crop& crop) { return kSeedFactor * crop.cover->seed_g_m2; });
  const auto dry = [&](double catalogue::Range::*end) {
    return mean(parts, rows, [&](const Crop& crop) { return crop.cover->biomass_t_ha.*end; });
  };
  mixed.biomass_t_ha = {dry(&catalogue::Range::low), dry(&catalogue::Range::typical),
                        dry(&catalogue::Range::high)};
  for (std::size_t stage = 0; stage < mixed.n_pct.size(); ++stage) {
    mixed.n_pct[stage] = mean(parts, rows,
                              [&](const Crop& crop) {
                                return crop.cover->biomass_t_ha.typical * crop.cover->n_pct[stage];
                              }) /
                         mixed.biomass_t_ha.typical;
  }
  mixed.root_n_share = mean(parts, rows, [](const Crop& crop) { return crop.cover->root_n_share; });
  for (const MixturePart& part : parts) take_strictest(mixed, *rows.crop(part.crop).cover);
  mixed.fumigant = catalogue::Fumigant::None;  // a share of the rate: nothing to count on
  mixed.fumigant_species_factor = 0.0;
  return mixed;
}

catalogue::NitrogenFigures mixed_nitrogen(const std::vector<MixturePart>& parts,
                                          const catalogue::Catalogue& rows,
                                          const CoverFigures& cover) {
  using Figures = catalogue::NitrogenFigures;
  Figures mixed = rows.crop(parts.front().crop).nitrogen;
  const auto of = [&](double Figures::*figure) {
    return mean(parts, rows, [&](const Crop& crop) { return crop.nitrogen.*figure; });
  };
  const auto by_uptake = [&](double Figures::*figure) {
    return mean(parts, rows,
                [&](const Crop& crop) {
                  return crop.nitrogen.uptake_kg_ha * crop.nitrogen.*figure;
                }) /
           mixed.uptake_kg_ha;
  };
  mixed.yield_t_ha = cover.biomass_t_ha.typical;
  mixed.uptake_kg_ha = of(&Figures::uptake_kg_ha);
  mixed.residue_n_pct = cover.n_pct[1];
  mixed.residual_kg_ha = of(&Figures::residual_kg_ha);
  mixed.root_n_pct = of(&Figures::root_n_pct);
  mixed.below_ground_share = by_uptake(&Figures::below_ground_share);
  mixed.fixation_share = by_uptake(&Figures::fixation_share);
  mixed.fixation_ceiling = by_uptake(&Figures::fixation_ceiling);
  for (const MixturePart& part : parts) {
    mixed.depth_cm = std::max(mixed.depth_cm, rows.crop(part.crop).nitrogen.depth_cm);
  }
  return mixed;
}

/// The hardest part decides how long the mixture lives, the most tender when it can be sown.
void mix_growth(Crop& mixed, const catalogue::Catalogue& rows) {
  for (const MixturePart& part : mixed.mixture) {
    const Crop& own = rows.crop(part.crop);
    mixed.kill_c = std::min(mixed.kill_c, own.kill_c);
    mixed.soil_min_c = std::max(mixed.soil_min_c, own.soil_min_c);
    mixed.base_c = std::max(mixed.base_c, own.base_c);
    mixed.cap_c = std::min(mixed.cap_c, own.cap_c);
    mixed.growth_min_c = std::max(mixed.growth_min_c, own.growth_min_c);
    mixed.growth_max_c = std::min(mixed.growth_max_c, own.growth_max_c);
    mixed.overwinters = mixed.overwinters || own.overwinters;
    mixed.legume = mixed.legume || own.legume;
    mixed.days_min = std::max(mixed.days_min, own.days_min);
    mixed.days_max = std::max(mixed.days_max, own.days_max);
    mixed.depth_cm = std::max(mixed.depth_cm, own.depth_cm);
    mixed.root_depth_cm = std::max(mixed.root_depth_cm, own.root_depth_cm);
    for (const std::string& caution : own.cautions) {
      const bool there =
          std::find(mixed.cautions.begin(), mixed.cautions.end(), caution) != mixed.cautions.end();
      if (!there) mixed.cautions.push_back(caution);
    }
  }
}

/// Family, break and residue are those of the part with the largest share, named first.
Crop mix(std::vector<MixturePart> parts, const catalogue::Catalogue& rows) {
  std::stable_sort(parts.begin(), parts.end(),
                   [](const MixturePart& a, const MixturePart& b) { return a.share > b.share; });
  Crop mixed = rows.crop(parts.front().crop);
  mixed.mixture = parts;
  mixed.also.clear();
  mixed.sources.clear();
  mixed.botanical_name.clear();
  std::string shares;
  for (const MixturePart& part : parts) {
    const Crop& own = rows.crop(part.crop);
    mixed.botanical_name += (mixed.botanical_name.empty() ? "" : " + ") + own.botanical_name;
    shares += fmt::format("{}{:.0f} % {}", shares.empty() ? "" : ", ", 100.0 * part.share, own.id);
  }
  mixed.cover = mixed_cover(parts, rows);
  mixed.nitrogen = mixed_nitrogen(parts, rows, *mixed.cover);
  mix_growth(mixed, rows);
  const std::string text = "worked out from the rows of its parts: " + shares;
  for (const char* topic : {"nitrogen", "days", "kill", "biomass", "fixation", "rest"}) {
    mixed.sources.push_back({topic, text, "derived"});
  }
  mixed.sources.push_back(
      {"seed_rate", "Univ. of Maryland Extension, Cover crops for gardens: 60 % of each sole rate",
       "published"});
  return mixed;
}

void read_mixture(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "crops", build);
  if (id.empty()) return;
  const RowFields row(node, "a mixture", kMixtureKeys, build.out);
  row.need({"name", "parts"});
  const Node* parts = row.get("parts");
  if (parts == nullptr) return;
  const std::vector<MixturePart> read = read_parts(*parts, build);
  if (read.empty()) return;
  Crop mixed = mix(read, build.rows);
  mixed.id = id;
  row.text("name", mixed.name);
  row.texts("also", mixed.also);
  read_row_source(row, build, mixed.sources);
  if (mixed.cover->windows.empty() || mixed.cover->endings.empty()) {
    build.out.error("never-together",
                    fmt::format("the parts of {} share no {}", id,
                                mixed.cover->windows.empty() ? "sowing window" : "ending"),
                    parts->source, "take covers that are sown and ended together");
    return;
  }
  const auto [place, fresh] = open_row(build.rows.crops, id);
  build.crop_places.emplace(id, place);
  build.rows.crops[place] = std::move(mixed);
}

}  // namespace

void read_mixtures(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "mixtures", build.out)) read_mixture(*row, build);
}

}  // namespace aftercrop::load
