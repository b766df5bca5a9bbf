#include "cli/crop_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/emit/order.h"
#include "aftercrop/garden/measure_text.h"
#include "cli/crop_figures.h"
#include "cli/crop_seasons.h"
#include "cli/measures.h"
#include "cli/terminal.h"
#include "diagnostic/text.h"

namespace aftercrop::cli {
namespace {

using catalogue::Catalogue;
using catalogue::Crop;
using garden::UnitSystem;

constexpr int kDeeper = 6;  // indent of what follows the first line of a source

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
constexpr std::array<std::string_view, 4> kSowingClasses = {"hardy", "half-hardy", "tender",
                                                            "very tender"};
constexpr std::array<std::string_view, 3> kCycles = {"annual", "biennial", "perennial"};
constexpr std::array<std::string_view, 3> kWork = {"little", "medium", "much"};
constexpr std::array<std::string_view, 4> kRegrowth = {"none", "little", "some", "strong"};
constexpr std::array<std::string_view, 2> kFrosts = {"last", "first"};
constexpr std::array<std::string_view, 3> kHarvests = {"at once", "picked over", "cut again"};

template <class Enum, std::size_t n>
std::string_view word(Enum value, const std::array<std::string_view, n>& words) {
  return words[static_cast<std::size_t>(value)];
}

std::string row(std::string_view head, std::string_view text) { return sheet_row(head, text); }

std::string span_text(double low, double high, std::string_view unit) {
  if (low == high) return fmt::format("{:g} {}", low, unit);
  return fmt::format("{:g} to {:g} {}", low, high, unit);
}

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
std::string part_rows(const Catalogue& catalogue, const Crop& crop, UnitSystem units) {
  std::string text;
  for (const emit::PartSeed& part : emit::mixture_seed(catalogue, crop)) {
    text += row("part", fmt::format("{:.0f} % {}, {} of its seed", 100.0 * part.share,
                                    catalogue.crop(part.crop).id, seed_rate(part.g_per_m2, units)));
  }
  return text;
}

std::string identity_rows(const Catalogue& catalogue, const Crop& crop, UnitSystem units) {
  const catalogue::Family& family = catalogue.family(crop.family);
  const catalogue::BreakGroup& group = catalogue.group(crop.group);
  std::string text = fmt::format("{}: {}, {}\n", crop.id, crop.name, crop.botanical_name);
  if (!crop.also.empty()) text += row("also", joined(crop.also));
  text += row("kind", crop.kind);
  if (crop.form_of.known()) text += row("form of", catalogue.crop(crop.form_of).id);
  text += part_rows(catalogue, crop, units);
  const std::string forms = forms_of(catalogue, crop);
  if (!forms.empty()) text += row("forms", forms);
  text += row("family", fmt::format("{} ({})", family.name, family.trade_name));
  const catalogue::Break& free = crop.is_cover() ? group.cover : group.crop;
  const std::string seasons =
      fmt::format("at least {}, better {}, seasons without {}", free.min, free.rec, group.label);
  text += row("break", free.rec > 0 ? seasons : "none asked for after " + group.label);
  return text;
}

/// A start in the week that was asked for, and the weeks that are open.
std::string when_rows(const CropChoice& choice) {
  if (choice.words.size() != 2) return {};
  return row(choice.column, choice.words[0]) + row("open", choice.words[1]);
}

std::string growing_rows(const Crop& crop, UnitSystem units) {
  std::string text = row("start", word(crop.start, kStarts));
  if (crop.plug_weeks.high > 0.0) {
    text += row("under cover",
                span_text(crop.plug_weeks.low, crop.plug_weeks.high, "weeks before planting out"));
  }
  if (crop.in_row_cm > 0.0) {
    text += row("spacing", spacing_words(crop, units));
  }
  if (crop.days_max > 0.0) {
    text += row(
        crop.is_cover() ? "to flower" : "to harvest",
        span_text(crop.days_min, crop.days_max,
                  crop.days_from_transplanting ? "days from planting out" : "days from sowing"));
  }
  text += row("stand of", fmt::format("{} at least", area_words(crop.smallest_stand_m2, units)));
  if (crop.succession_weeks) {
    text += row("again", fmt::format("every {} weeks", *crop.succession_weeks));
  }
  if (gives_food(crop)) {
    text += row("yield", yield_range(crop, units));
    text += row("work", word(crop.work, kWork));
    if (!crop.support.empty()) text += row("support", garden::prose_text(crop.support, units));
    text += row("harvest",
                fmt::format("{}, {}", word(crop.harvest_mode, kHarvests),
                            span_text(crop.harvest_weeks_min, crop.harvest_weeks_max, "weeks")));
  }
  return text;
}

std::string life_words(const Crop& crop) {
  std::string text(word(crop.life_cycle, kCycles));
  if (crop.productive_years > 1) text += fmt::format(", gives for {} years", crop.productive_years);
  if (crop.overwinters) text += ", stands through winter";
  return text;
}

std::string weeks_text(int weeks) {
  return fmt::format("{} {}", weeks, weeks == 1 ? "week" : "weeks");
}

/// "2 weeks after the last frost".
std::string from_frost(int weeks, catalogue::FrostAnchor anchor) {
  if (weeks == 0) return fmt::format("the {} frost", word(anchor, kFrosts));
  const char* side = weeks < 0 ? "before" : "after";
  return fmt::format("{} {} the {} frost", weeks_text(std::abs(weeks)), side,
                     word(anchor, kFrosts));
}

std::string climate_rows(const Crop& crop, UnitSystem units) {
  std::string text = row("frost", fmt::format("{}; killed at {}", word(crop.hardiness, kHardiness),
                                              degrees_text(crop.kill_c, units)));
  text += row("temperature", temperature_words(crop, units));
  text +=
      row("counted", fmt::format("degree-days above {}, up to {}", degrees_text(crop.base_c, units),
                                 degrees_text(crop.cap_c, units)));
  if (!crop.is_cover()) text += row("spring start", word(crop.sowing_class, kSowingClasses));
  const std::string limits = start_limits(crop, units);
  if (!limits.empty()) text += row("start limits", limits);
  if (!crop.local_calendar.empty()) text += row("calendar", local_calendar_words(crop));
  const std::string setting = setting_words(crop, units);
  if (!setting.empty()) text += row("sets", setting);
  text += row("life", life_words(crop));
  text += row("roots", depth_words(crop.root_depth_cm, units));
  return text;
}

std::string nitrogen_rows(const Crop& crop, UnitSystem units) {
  std::string text = row("feeder", word(crop.feeder, kFeeders));
  const catalogue::NitrogenFigures& nitrogen = crop.nitrogen;
  if (nitrogen.uptake_kg_ha > 0.0) {
    text += row("nitrogen", uptake_words(nitrogen, units));
    text += row("what it leaves", residue_words(nitrogen, units));
  }
  if (nitrogen.fixation_share > 0.0) {
    text += row("fixes", fmt::format("about {:.0f} % of its nitrogen on a lean soil",
                                     100.0 * nitrogen.fixation_share));
  }
  return text;
}

std::string cover_rows(const Crop& crop, UnitSystem units) {
  if (!crop.cover) return {};
  const catalogue::CoverFigures& cover = *crop.cover;
  std::string text = row("seed", seed_rate(cover.seed_g_m2, units));
  for (const catalogue::CoverWindow& window : cover.windows) {
    text +=
        row("sown from", fmt::format("{} to {}", from_frost(window.from_weeks, window.from_anchor),
                                     from_frost(window.to_weeks, window.to_anchor)));
  }
  text += row("stand", fmt::format("useful after {} weeks of growth", cover.weeks_to_stand));
  text += row("top growth", growth_range(cover, units));
  text += row("its nitrogen",
              fmt::format("{} % in leaf, {} % in flower, {} % ripe", two_digits(cover.n_pct[0]),
                          two_digits(cover.n_pct[1]), two_digits(cover.n_pct[2])));
  std::vector<std::string> endings;
  for (const catalogue::Ending ending : cover.endings) endings.emplace_back(name(ending));
  if (!endings.empty()) text += row("ends", joined(endings));
  text += row("after it", fmt::format("regrowth {}; weeds kept down {} of 4; waits {} for fine "
                                      "seed, {} for coarse, {} for plants",
                                      word(cover.regrowth, kRegrowth), cover.weed_suppression,
                                      weeks_text(cover.wait_weeks[0]), cover.wait_weeks[1],
                                      cover.wait_weeks[2]));
  return text;
}

std::string caution_rows(const Catalogue& catalogue, const Crop& crop, UnitSystem units) {
  std::string text;
  for (const std::string& id : crop.cautions) {
    if (const catalogue::Caution* caution = catalogue.find_caution(id)) {
      text += row("caution", garden::prose_text(caution->text, units));
    }
  }
  return text;
}

std::string source_rows(const Crop& crop) {
  std::string text = "  sources\n";
  for (const catalogue::Attribution& row : catalogue::attributions(crop)) {
    std::vector<std::string> who;
    for (const catalogue::Citation& source : row.sources) {
      who.push_back(catalogue::with_grade(source));
    }
    const std::string said = fmt::format("{}: {}", row.figures, fmt::join(who, "; "));
    std::string_view indent = "    ";
    for (const std::string& line : diagnostic::fold(said, room_from(kDeeper))) {
      text += fmt::format("{}{}\n", indent, line);
      indent = "      ";
    }
  }
  return text;
}

}  // namespace

std::string crop_table(const Catalogue& catalogue, const CropChoice& choice, UnitSystem units) {
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
                        choice.column.empty() ? typical_yield(crop, units) : choice.words[i]);
  }
  return text;
}

std::string sheet_row(std::string_view head, std::string_view text) {
  constexpr int kHead = 18;
  return beside(fmt::format("  {}", head), text, kHead);
}

std::string crop_sheet(const Catalogue& catalogue, const CropChoice& choice,
                       const garden::Garden* garden) {
  const Crop& crop = catalogue.crop(choice.crops.front());
  const UnitSystem units = garden == nullptr ? UnitSystem::Metric : garden->units;
  const bool asks_when = !choice.words.empty();
  const std::string when = asks_when ? when_rows(choice)
                           : garden  ? season_rows(catalogue, crop, *garden)
                                     : std::string();
  return identity_rows(catalogue, crop, units) + when + growing_rows(crop, units) +
         climate_rows(crop, units) + nitrogen_rows(crop, units) + cover_rows(crop, units) +
         caution_rows(catalogue, crop, units) + source_rows(crop);
}

}  // namespace aftercrop::cli
