#include "cli/inputs.h"

#include <fmt/format.h>

#include <filesystem>

#include "aftercrop/load/names.h"
#include "cli/read_file.h"
#include "cli/report.h"
#include "cli/terminal.h"

namespace aftercrop::cli {

std::string garden_file(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_directory(path, error)) return path;
  return (std::filesystem::path(path) / "garden.yaml").string();
}

std::optional<catalogue::Catalogue> open_catalogue(const Shared& shared,
                                                   diagnostic::Diagnostics& out) {
  if (shared.crops.empty()) return load::embedded_catalogue();
  return load::load_catalogue(load::embedded_catalogue(), shared.crops, read_file, out);
}

std::optional<load::LoadedGarden> open_garden(const std::string& path, const Shared& shared,
                                              diagnostic::Diagnostics& out) {
  const auto base = open_catalogue(shared, out);
  if (!base) return {};
  return load::load_garden(garden_file(path), *base, read_file, out);
}

std::optional<Opened> open_both(const std::string& garden, const std::string& plan,
                                const Shared& shared, diagnostic::Diagnostics& out) {
  auto loaded = open_garden(garden, shared, out);
  if (!loaded) return {};
  auto read = load::load_plan(plan, *loaded, read_file, out);
  if (!read) return {};
  return Opened{std::move(*loaded), std::move(*read)};
}

std::optional<Opened> open_and_tell(const std::string& garden, const std::string& plan,
                                    const Shared& shared) {
  diagnostic::Diagnostics told;
  auto opened = open_both(garden, plan, shared, told);
  print_findings(stderr, told, shared);
  return opened;
}

std::vector<garden::BedId> chosen_beds(const garden::Garden& garden, const std::string& name) {
  std::vector<garden::BedId> beds;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    beds.emplace_back(i);
    names.push_back(garden.beds[i].name);
    if (garden.beds[i].whole != garden.beds[i].name) names.push_back(garden.beds[i].whole);
  }
  if (name.empty()) return beds;
  beds = garden.find(name);
  if (beds.empty()) {
    constexpr std::size_t kFew = 12;
    const auto near = load::did_you_mean(name, names);
    std::string hint;
    if (names.size() <= kFew) {
      hint = fmt::format("; its beds are {}", fmt::join(names, ", "));
    } else if (near) {
      hint = fmt::format("; did you mean \"{}\"?", *near);
    }
    complain(fmt::format("the garden has no bed \"{}\"{}", name, hint));
  }
  return beds;
}

}  // namespace aftercrop::cli
