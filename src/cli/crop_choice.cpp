#include "cli/crop_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/window.h"
#include "aftercrop/load/names.h"
#include "cli/crop_seasons.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

using calendar::Week;
using calendar::Weeks;
using catalogue::Catalogue;
using catalogue::Crop;
using catalogue::CropId;

constexpr std::array<std::string_view, 4> kRoles = {"no host", "prone", "hurt less", "carrier"};

std::vector<std::string> names_of(const catalogue::Family& family) {
  std::vector<std::string> names = family.also;
  names.push_back(family.id);
  names.push_back(family.name);
  names.push_back(family.trade_name);
  return names;
}

void complain_of(const char* what, const std::string& name, const std::vector<std::string>& known,
                 const std::vector<std::string>& listed) {
  const auto near = load::did_you_mean(name, known);
  complain(fmt::format("\"{}\" is not {} of the catalogue; {}", name, what,
                       near ? fmt::format("did you mean \"{}\"?", *near)
                            : fmt::format("there are {}", fmt::join(listed, ", "))));
}

std::optional<catalogue::FamilyId> find_family(const Catalogue& catalogue,
                                               const std::string& name) {
  std::vector<std::string> known;
  std::vector<std::string> listed;
  for (std::size_t i = 0; i < catalogue.families.size(); ++i) {
    const std::vector<std::string> names = names_of(catalogue.families[i]);
    listed.push_back(catalogue.families[i].trade_name);
    if (std::find(names.begin(), names.end(), name) != names.end()) return catalogue::FamilyId(i);
    known.insert(known.end(), names.begin(), names.end());
  }
  complain_of("a family", name, known, listed);
  return {};
}

const catalogue::Pathogen* find_disease(const Catalogue& catalogue, const std::string& name) {
  std::vector<std::string> known;
  for (const catalogue::Pathogen& one : catalogue.pathogens) {
    if (one.id == name || one.name == name) return &one;
    known.push_back(one.id);
  }
  complain_of("a disease", name, known, known);
  return nullptr;
}

/// The week that was typed as a week or as a day in it.
std::optional<Week> read_week(const std::string& text) {
  if (const auto week = calendar::parse_week(text)) return week;
  if (const auto day = calendar::Date::parse(text)) return calendar::week_of(*day);
  complain(fmt::format("\"{}\" is neither a week (2027-W36) nor a day (2027-09-06)", text));
  return {};
}

std::string words_of_cover(const climate::Outlook& outlook) {
  const auto& useful = outlook.useful;
  const auto& killed = outlook.killed;
  if (killed && (!useful || *killed <= *useful)) {
    return fmt::format("frost kills it about {}, before it is of use", calendar::text(*killed));
  }
  if (!useful) return "of no use within a year";
  std::string text = fmt::format("of use from {}", calendar::text(*useful));
  if (killed) text += fmt::format(", killed by frost about {}", calendar::text(*killed));
  return text;
}

/// What comes of a start in the week, in a few words.
std::string words_of(const Crop& crop, const climate::Outlook& outlook) {
  if (!outlook.open) return "not to be started";
  if (crop.is_cover()) return words_of_cover(outlook);
  if (!outlook.harvest) return {};
  return fmt::format("harvest from {}{}", calendar::text(*outlook.harvest),
                     outlook.early ? ", of an early cultivar" : "");
}

struct Place {
  std::string name;
  Week week;  ///< that was asked for
  climate::SiteClimate site;
};

/// The climate of the garden about the week that was asked for. Empty and told.
std::optional<Place> find_place(const Catalogue& catalogue, const CropsOptions& options,
                                const garden::Garden* garden) {
  const auto week = read_week(options.sow_in);
  if (!week) return {};
  if (garden == nullptr) {
    complain("--sow-in needs --garden FILE: the climate decides what can be sown");
    return {};
  }
  climate::SiteClimate site = climate_about(catalogue, *garden, garden::Shelter::Open, *week);
  site.prepare(catalogue.crops);
  return Place{garden->site.normals.name, *week, std::move(site)};
}

/// Leaves what can be started in the week at the garden's site.
bool keep_sowable(const Catalogue& catalogue, const CropsOptions& options,
                  const garden::Garden* garden, CropChoice& choice) {
  const auto place = find_place(catalogue, options, garden);
  if (!place) return false;
  std::erase_if(choice.crops, [&](CropId id) {
    return !climate::judge_start(catalogue.crop(id), place->site, place->week).open();
  });
  choice.climate = place->name;
  choice.column =
      fmt::format("sown or set out in {}, {}", calendar::text(place->week), place->name);
  for (const CropId id : choice.crops) {
    const Crop& crop = catalogue.crop(id);
    choice.outlooks.push_back(climate::outlook_of(crop, place->site, place->week));
    choice.words.push_back(words_of(crop, choice.outlooks.back()));
  }
  return true;
}

std::string words_of(const std::vector<calendar::WeekSpan>& open) {
  std::vector<std::string> spans;
  for (const calendar::WeekSpan& span : open) {
    spans.push_back(calendar::text(span.first));
    if (span.length().count() > 1) spans.back() += " to " + calendar::text(span.past - Weeks(1));
  }
  return spans.empty() ? "no week of the year" : fmt::format("{}", fmt::join(spans, ", "));
}

bool keep_hosts(const Catalogue& catalogue, const std::string& disease, CropChoice& choice) {
  const catalogue::Pathogen* pathogen = find_disease(catalogue, disease);
  if (pathogen == nullptr) return false;
  std::erase_if(choice.crops, [&](CropId id) { return pathogen->host(id) == nullptr; });
  choice.column = "as host of " + pathogen->name;
  for (const CropId id : choice.crops) {
    const catalogue::Host& host = *pathogen->host(id);
    choice.words.emplace_back(kRoles[static_cast<std::size_t>(host.role)]);
  }
  return true;
}

}  // namespace

bool week_is_clear(const CropsOptions& options) {
  return options.sow_in.empty() || read_week(options.sow_in).has_value();
}

std::optional<CropChoice> choose_crops(const Catalogue& catalogue, const CropsOptions& options,
                                       const garden::Garden* garden) {
  CropChoice choice;
  std::optional<catalogue::FamilyId> family;
  if (!options.family.empty()) {
    family = find_family(catalogue, options.family);
    if (!family) return {};
  }
  for (std::size_t i = 0; i < catalogue.crops.size(); ++i) {
    if (family && catalogue.crops[i].family != *family) continue;
    if (options.cover && !catalogue.crops[i].is_cover()) continue;
    choice.crops.emplace_back(i);
  }
  std::sort(choice.crops.begin(), choice.crops.end(),
            [&](CropId a, CropId b) { return catalogue.crop(a).id < catalogue.crop(b).id; });
  if (!options.host_of.empty() && !keep_hosts(catalogue, options.host_of, choice)) return {};
  if (options.sow_in.empty()) return choice;
  choice.words.clear();
  if (!keep_sowable(catalogue, options, garden, choice)) return {};
  return choice;
}

bool say_when(const Catalogue& catalogue, const CropsOptions& options, const garden::Garden* garden,
              CropChoice& choice) {
  const auto place = find_place(catalogue, options, garden);
  if (!place) return false;
  const Crop& crop = catalogue.crop(choice.crops.front());
  const climate::Outlook outlook = climate::outlook_of(crop, place->site, place->week);
  choice.climate = place->name;
  choice.column = fmt::format("in {}", calendar::text(place->week));
  choice.words.push_back(words_of(crop, outlook));
  choice.words.push_back(fmt::format("{}, at {}", words_of(outlook.open_weeks), place->name));
  choice.outlooks.push_back(outlook);
  return true;
}

}  // namespace aftercrop::cli
