#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <chrono>
#include <filesystem>

#include "aftercrop/calendar/date.h"
#include "aftercrop/load/load.h"
#include "aftercrop/load/names.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/report.h"
#include "cli/starter.h"
#include "cli/terminal.h"
#include "cli/write_file.h"

namespace aftercrop::cli {
namespace {

namespace fs = std::filesystem;

/// The season that a garden made today can still plan whole.
int next_season() {
  const auto days = std::chrono::duration_cast<std::chrono::hours>(
                        std::chrono::system_clock::now().time_since_epoch())
                        .count() /
                    24;
  const auto today = calendar::Date::from_serial(static_cast<int>(days));
  constexpr int march = 3;
  return today.month() <= march ? today.year() : today.year() + 1;
}

/// Tells if there is no such climate.
bool climate_known(const catalogue::Catalogue& catalogue, const std::string& name) {
  if (name.empty() || catalogue.find_climate(name) != nullptr) return true;
  std::vector<std::string> known;
  for (const auto& climate : catalogue.climates) known.push_back(climate.id);
  const auto near = load::did_you_mean(name, known);
  complain(fmt::format("\"{}\" is not a climate that is built in{}", name,
                       near ? fmt::format("; did you mean \"{}\"?", *near)
                            : fmt::format("; there are {}", fmt::join(known, ", "))));
  return false;
}

/// The folder's last name, without what a file must not hold.
std::string garden_name(const fs::path& folder) {
  fs::path whole = fs::absolute(folder).lexically_normal();
  if (!whole.has_filename()) whole = whole.parent_path();
  std::string name = whole.filename().string();
  name.erase(std::remove_if(name.begin(), name.end(),
                            [](unsigned char c) { return std::iscntrl(c) != 0; }),
             name.end());
  return name.empty() ? "garden" : name;
}

}  // namespace

ExitCode run_new(const NewOptions& options, const Shared& shared) {
  diagnostic::Diagnostics told;
  const auto catalogue = open_catalogue(shared, told);
  print_findings(stderr, told, shared);
  if (!catalogue || !climate_known(*catalogue, options.climate)) return ExitCode::Unusable;
  const fs::path folder = options.folder;
  const fs::path file = folder / "garden.yaml";
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) {
    complain(fmt::format("{} cannot be made: {}", options.folder, error.message()));
    return ExitCode::Unusable;
  }
  if (fs::exists(fs::symlink_status(file, error))) {
    complain(fmt::format("{} is there already and stays as it is", file.string()));
    return ExitCode::Unusable;
  }
  NewOptions filled = options;
  if (filled.season == 0) filled.season = next_season();
  if (const auto failure =
          write_whole(file.string(), starter_garden(garden_name(folder), filled))) {
    complain(fmt::format("{} is not written: {}", file.string(), *failure));
    return ExitCode::Unusable;
  }
  // A schema that lies there already may be somebody's own: it stays.
  const fs::path schema = folder / kSchemaName;
  if (!fs::exists(fs::symlink_status(schema, error))) {
    if (const auto failure = write_whole(schema.string(), garden_schema())) {
      complain(fmt::format("{} is not written: {}", schema.string(), *failure));
      return ExitCode::Unusable;
    }
  }
  if (!shared.quiet) {
    print(stderr, fmt::format("wrote {} for the season {}; next: cd {} && aftercrop\n",
                              file.string(), filled.season, options.folder));
  }
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
