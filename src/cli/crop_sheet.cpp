#include "cli/crop_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/emit/order.h"
#include "cli/measures.h"

namespace aftercrop::cli {
namespace {

using catalogue::Catalogue;
using catalogue::Crop;
using catalogue::Range;

constexpr std::array<std::string_view, 9> kStarts = {"sown in place",
                                                     "set out as a plant",
                                                     "sown in place or set out as a plant",
                                                     "sets",
                                                     "cloves",
                                                     "tubers",
                                                     "slips",
                                                     "crowns",
                                                     "root cuttings"};
constexpr std::array<std::string_view, 4> kFeeders = {"light", "medium", "heavy", "legume"};
constexpr std::array<std::string_view, 5> kHardiness = {"very hardy", "hardy", "half-hardy",
                                                        "tender", "very tender"};
constexpr std::array<std::string_view, 3> kHarvests = {"at once", "picked over", "cut again"};

template <class Enum, std::size_t n>
std::string_view word(Enum value, const std::array<std::string_view, n>& words) {
  return words[static_cast<std::size_t>(value)];
}

std::string row(std::string_view head, std::string_view text) {
  return fmt::format("  {:<15} {}\n", head, text);
}

std::string range_text(const Range& range, std::string_view unit) {
  return fmt::format("{} {} ({} to {})", two_digits(range.typical), unit, two_digits(range.low),
                     two_digits(range.high));
}

std::string span_text(double low, double high, std::string_view unit) {
  if (low == high) return fmt::format("{:g} {}", low, unit);
  return fmt::format("{:g} to {:g} {}", low, high, unit);
}

std::string_view yield_unit(const Crop& crop) {
  return crop.yield_unit == catalogue::YieldUnit::Stems ? "stems/m2" : "kg/m2";
}

bool gives_food(const Crop& crop) { return crop.yield_unit != catalogue::YieldUnit::None; }

std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

/// Ids of the forms of a crop, with commas.
std::string forms_of(const Catalogue& catalogue, const Crop& crop) {
  std::vector<std::string> ids;
  for (const Crop& other : catalogue.crops) {
    const bool form = other.form_of.known() && catalogue.crop(other.form_of).id == crop.id;
    if (form) ids.push_back(other.id);
  }
  return joined(ids);
}

/// The parts of a mixture, with their shares and seed.
std::string part_rows(const Catalogue& catalogue, const Crop& crop) {
  std::string text;
  for (const emit::PartSeed& part : emit::mixture_seed(catalogue, crop)) {
    text += row("part", fmt::format("{:.0f} % {}, {} g/m2 of its seed", 100.0 * part.share,
                                    catalogue.crop(part.crop).id, two_digits(part.g_per_m2)));
  }
  return text;
}

std::string identity_rows(const Catalogue& catalogue, const Crop& crop) {
  const catalogue::Family& family = catalogue.family(crop.family);
  const catalogue::BreakGroup& group = catalogue.group(crop.group);
  std::string text = fmt::format("{}: {}, {}\n", crop.id, crop.name, crop.botanical_name);
  if (!crop.also.empty()) text += row("also", joined(crop.also));
  text += row("kind", crop.kind);
  if (crop.form_of.known()) text += row("form of", catalogue.crop(crop.form_of).id);
  text += part_rows(catalogue, crop);
  const std::string forms = forms_of(catalogue, crop);
  if (!forms.empty()) text += row("forms", forms);
  text += row("family", fmt::format("{} ({})", family.name, family.trade_name));
  const catalogue::Break& free = crop.is_cover() ? group.cover : group.crop;
  text += row("break", fmt::format("at least {}, better {}, seasons without {}", free.min, free.rec,
                                   group.label));
  return text;
}

/// A start in the week that was asked for, and the weeks that are open.
std::string when_rows(const CropChoice& choice) {
  if (choice.words.size() != 2) return {};
  return row(choice.column, choice.words[0]) + row("open", choice.words[1]);
}

std::string growing_rows(const Crop& crop) {
  std::string text = row("start", word(crop.start, kStarts));
  if (crop.plug_weeks.high > 0.0) {
    text += row("under cover",
                span_text(crop.plug_weeks.low, crop.plug_weeks.high, "weeks before planting out"));
  }
  if (crop.in_row_cm > 0.0) {
    text += row("spacing", fmt::format("{:g} cm in the row, {:g} cm between rows, {:g} cm deep",
                                       crop.in_row_cm, crop.between_row_cm, crop.depth_cm));
  }
  if (crop.days_max > 0.0) {
    text += row("to harvest", span_text(crop.days_min, crop.days_max,
                                        crop.days_from_transplanting ? "days from planting out"
                                                                     : "days from sowing"));
  }
  if (gives_food(crop)) {
    text += row("yield", range_text(crop.yield_per_m2, yield_unit(crop)));
    text += row("harvest",
                fmt::format("{}, {}", word(crop.harvest_mode, kHarvests),
                            span_text(crop.harvest_weeks_min, crop.harvest_weeks_max, "weeks")));
  }
  return text;
}

std::string climate_rows(const Crop& crop) {
  std::string text = row(
      "frost", fmt::format("{}; killed at {:g} C", word(crop.hardiness, kHardiness), crop.kill_c));
  text += row("temperature", fmt::format("soil {:g} C to come up, air {:g} to {:g} C to grow well",
                                         crop.soil_min_c, crop.growth_min_c, crop.growth_max_c));
  return text;
}

std::string nitrogen_rows(const Crop& crop) {
  std::string text = row("feeder", word(crop.feeder, kFeeders));
  const catalogue::NitrogenFigures& nitrogen = crop.nitrogen;
  if (nitrogen.uptake_kg_ha > 0.0) {
    text += row("nitrogen",
                fmt::format("takes up {:.0f} kg/ha at {:g} t/ha; {:g} kg leave with a t",
                            nitrogen.uptake_kg_ha, nitrogen.yield_t_ha, nitrogen.harvest_kg_per_t));
  }
  if (nitrogen.fixation_share > 0.0) {
    text += row("fixes", fmt::format("about {:.0f} % of its nitrogen on a lean soil",
                                     100.0 * nitrogen.fixation_share));
  }
  return text;
}

std::string cover_rows(const Crop& crop) {
  if (!crop.cover) return {};
  const catalogue::CoverFigures& cover = *crop.cover;
  std::string text = row("seed", fmt::format("{} g/m2", two_digits(cover.seed_g_m2)));
  text += row("stand", fmt::format("useful after {} weeks of growth", cover.weeks_to_stand));
  text += row("top growth", range_text(cover.biomass_t_ha, "t dry matter/ha"));
  text += row("its nitrogen",
              fmt::format("{} % in leaf, {} % in flower, {} % ripe", two_digits(cover.n_pct[0]),
                          two_digits(cover.n_pct[1]), two_digits(cover.n_pct[2])));
  std::vector<std::string> endings;
  for (const catalogue::Ending ending : cover.endings) endings.emplace_back(name(ending));
  if (!endings.empty()) text += row("ends", joined(endings));
  return text;
}

std::string caution_rows(const Catalogue& catalogue, const Crop& crop) {
  std::string text;
  for (const std::string& id : crop.cautions) {
    if (const catalogue::Caution* caution = catalogue.find_caution(id)) {
      text += row("caution", caution->text);
    }
  }
  return text;
}

std::string cited(const catalogue::Citation& source) {
  const bool plain = source.grade.empty() || source.text == source.grade;
  return plain ? source.text : fmt::format("{} [{}]", source.text, source.grade);
}

std::string cited_under(const Crop& crop, std::string_view topic) {
  std::string text;
  for (const catalogue::Citation& source : crop.sources) {
    if (source.topic != topic) continue;
    text += text.empty() ? cited(source) : "; " + cited(source);
  }
  return text;
}

/// Every group of figures with who says so, groups of one source together; then what else the row
/// cites.
std::string source_rows(const Crop& crop) {
  std::vector<std::pair<std::string, std::string>> rows;  // figures, who says so
  std::vector<std::string_view> told;
  const auto add = [&](std::string_view figures, const std::string& who) {
    const auto same =
        std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return row.second == who; });
    if (same == rows.end()) {
      rows.emplace_back(figures, who);
    } else {
      same->first += fmt::format(", {}", figures);
    }
  };
  for (const catalogue::FigureGroup& group : catalogue::figure_groups(crop)) {
    const catalogue::Citation* first = catalogue::source_of(crop.sources, group.topic);
    told.push_back(first == nullptr ? group.topic : std::string_view(first->topic));
    add(group.name, cited_under(crop, told.back()));
  }
  for (const catalogue::Citation& source : crop.sources) {
    if (std::find(told.begin(), told.end(), source.topic) != told.end()) continue;
    told.push_back(source.topic);
    add(source.topic, cited_under(crop, source.topic));
  }
  std::string text = "  sources\n";
  for (const auto& [figures, who] : rows) text += fmt::format("    {}: {}\n", figures, who);
  return text;
}

std::string typical_yield(const Crop& crop) {
  if (crop.is_cover()) {
    return fmt::format("{} t/ha dry", two_digits(crop.cover->biomass_t_ha.typical));
  }
  if (!gives_food(crop)) return "-";
  return fmt::format("{} {}", two_digits(crop.yield_per_m2.typical), yield_unit(crop));
}

}  // namespace

std::string crop_table(const Catalogue& catalogue, const CropChoice& choice) {
  std::size_t ids = 2;
  std::size_t names = 4;
  for (const catalogue::CropId id : choice.crops) {
    ids = std::max(ids, catalogue.crop(id).id.size());
    names = std::max(names, catalogue.crop(id).name.size());
  }
  const std::string last = choice.column.empty() ? "typical yield" : choice.column;
  std::string text = fmt::format("{:<{}}  {:<{}}  {:<16}  {:<6}  {}\n", "id", ids, "name", names,
                                 "family", "feeder", last);
  for (std::size_t i = 0; i < choice.crops.size(); ++i) {
    const Crop& crop = catalogue.crop(choice.crops[i]);
    text += fmt::format("{:<{}}  {:<{}}  {:<16}  {:<6}  {}\n", crop.id, ids, crop.name, names,
                        catalogue.family(crop.family).name, word(crop.feeder, kFeeders),
                        choice.column.empty() ? typical_yield(crop) : choice.words[i]);
  }
  return text;
}

std::string crop_sheet(const Catalogue& catalogue, const CropChoice& choice) {
  const Crop& crop = catalogue.crop(choice.crops.front());
  return identity_rows(catalogue, crop) + when_rows(choice) + growing_rows(crop) +
         climate_rows(crop) + nitrogen_rows(crop) + cover_rows(crop) +
         caution_rows(catalogue, crop) + source_rows(crop);
}

}  // namespace aftercrop::cli
