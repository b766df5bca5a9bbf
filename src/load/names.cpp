#include "aftercrop/load/names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "load/spelling.h"

namespace aftercrop::load {
namespace {

using catalogue::Catalogue;
using catalogue::Crop;
using catalogue::CropId;

using Readings = std::vector<CropId>;

// Readings that a message lists, and letters of the longest word that is compared.
constexpr std::size_t kMostReadings = 6;
constexpr std::size_t kLongestWord = 64;

/// Which crop a bare word means most often, where several answer to it: our choice.
struct Commonest {
  std::string_view word;
  std::string_view id;
};
constexpr std::array<Commonest, 8> kCommonest = {{{"bean", "bush-bean"},
                                                  {"cabbage", "cabbage-late"},
                                                  {"clover", "crimson-clover"},
                                                  {"lettuce", "lettuce-leaf"},
                                                  {"onion", "onion-bulb"},
                                                  {"pea", "pea-shell"},
                                                  {"squash", "squash-winter"},
                                                  {"vetch", "hairy-vetch"}}};

bool answers_to(const Crop& crop, const std::vector<std::string>& spellings) {
  const auto is = [&](const std::string& known) {
    return std::find(spellings.begin(), spellings.end(), canonical_name(known)) != spellings.end();
  };
  return is(crop.id) || is(crop.name) || std::any_of(crop.also.begin(), crop.also.end(), is);
}

/// "clover" for red-clover and white-clover, "lettuce" for lettuce-leaf.
bool kind_of(const Crop& crop, const std::string& word) {
  if (crop.form_of.known() || !crop.mixture.empty()) return false;
  const std::string id = canonical_word(crop.id);
  return id.starts_with(word + "-") || id.ends_with("-" + word);
}

template <class Matches>
Readings collect(const Catalogue& catalogue, Matches matches) {
  Readings found;
  for (std::size_t i = 0; i < catalogue.crops.size(); ++i) {
    if (matches(catalogue.crops[i])) found.emplace_back(i);
  }
  return found;
}

bool alike(const Readings& readings, const Catalogue& catalogue) {
  const Crop& first = catalogue.crop(readings.front());
  return std::all_of(readings.begin(), readings.end(), [&](CropId id) {
    const Crop& crop = catalogue.crop(id);
    return crop.family == first.family && crop.is_cover() == first.is_cover();
  });
}

CropId commonest(const Readings& readings, const Catalogue& catalogue,
                 const std::vector<std::string>& spellings) {
  for (const auto& [word, id] : kCommonest) {
    if (std::find(spellings.begin(), spellings.end(), word) == spellings.end()) continue;
    for (const CropId reading : readings) {
      if (catalogue.crop(reading).id == id) return reading;
    }
  }
  return readings.front();
}

std::string list_ids(const Readings& readings, const Catalogue& catalogue) {
  std::string text;
  for (std::size_t i = 0; i < readings.size() && i < kMostReadings; ++i) {
    if (i > 0) text += ", ";
    text += catalogue.crop(readings[i]).id;
  }
  return readings.size() > kMostReadings ? text + ", ..." : text;
}

std::vector<std::string> all_names(const Catalogue& catalogue) {
  std::vector<std::string> names;
  for (const Crop& crop : catalogue.crops) {
    names.push_back(crop.id);
    names.insert(names.end(), crop.also.begin(), crop.also.end());
  }
  return names;
}

std::optional<CropId> choose(std::string_view name, const Readings& readings,
                             const Catalogue& catalogue, const diagnostic::Source& source,
                             diagnostic::Diagnostics& out) {
  if (readings.size() == 1) return readings.front();
  const std::string ids = list_ids(readings, catalogue);
  if (!alike(readings, catalogue)) {
    out.error("ambiguous-crop", fmt::format("\"{}\" could be {}", name, ids), source,
              "write the one that is meant");
    return {};
  }
  const CropId taken = commonest(readings, catalogue, canonical_spellings(name));
  out.note("crop-reading",
           fmt::format("\"{}\" is taken as {} ({})", name, catalogue.crop(taken).id,
                       catalogue.crop(taken).name),
           source, fmt::format("it could also be another of {}", ids));
  return taken;
}

}  // namespace

std::optional<std::string> did_you_mean(std::string_view word,
                                        const std::vector<std::string>& known) {
  if (word.empty() || word.size() > kLongestWord) return {};
  const std::string plain = canonical_word(word);
  const auto within = static_cast<int>(std::max<std::size_t>(1, word.size() / 3));
  std::optional<std::string> best;
  int least = within + 1;
  for (const std::string& one : known) {
    if (one.size() > kLongestWord) continue;
    const int edits = edit_distance(plain, canonical_word(one));
    if (edits < least) {
      least = edits;
      best = one;
    }
  }
  return best;
}

std::optional<CropId> find_crop(std::string_view name, const Catalogue& catalogue,
                                const diagnostic::Source& source, diagnostic::Diagnostics& out) {
  if (const auto exact = catalogue.find_crop(name)) return exact;
  const std::vector<std::string> spellings = canonical_spellings(name);
  Readings readings =
      collect(catalogue, [&](const Crop& crop) { return answers_to(crop, spellings); });
  if (readings.empty() && !name.empty()) {
    const std::string word = canonical_word(name);
    if (!word.empty()) {
      readings = collect(catalogue, [&](const Crop& crop) { return kind_of(crop, word); });
    }
  }
  if (!readings.empty()) return choose(name, readings, catalogue, source, out);
  const std::optional<std::string> near = did_you_mean(name, all_names(catalogue));
  out.error("unknown-crop", fmt::format("\"{}\" is not a crop of the catalogue", name), source,
            near ? fmt::format("did you mean \"{}\"?", *near)
                 : std::string("`aftercrop crops` lists all names; a file of `crops:` adds more"));
  return {};
}

}  // namespace aftercrop::load
