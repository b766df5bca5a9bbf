#pragma once

#include <map>
#include <string>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/load/load.h"
#include "support/small_catalogue.h"

// Reads files that live in a test.
namespace aftercrop::support {

using Files = std::map<std::string, std::string>;

inline load::ReadText reader(const Files& files) {
  return [files](const std::string& path) -> load::TextOrReason {
    const auto found = files.find(path);
    if (found == files.end()) return {std::nullopt, "No such file or directory"};
    return {found->second, {}};
  };
}

struct Reading {
  std::optional<load::LoadedGarden> loaded;
  diagnostic::Diagnostics said;

  /// All messages in full, one after the other.
  [[nodiscard]] std::string text() const {
    std::string all;
    for (const auto& one : said.all()) all += diagnostic::render_full(one, {});
    return all;
  }
  [[nodiscard]] int count(const std::string& id) const {
    int number = 0;
    for (const auto& one : said.all()) number += one.id == id ? 1 : 0;
    return number;
  }
};

inline Reading read_garden(const std::string& text, Files files = {}) {
  static const catalogue::Catalogue rows = small_catalogue();
  Reading reading;
  files["lot/garden.yaml"] = text;
  reading.loaded = load::load_garden("lot/garden.yaml", rows, reader(files), reading.said);
  return reading;
}

}  // namespace aftercrop::support
