#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/load/load.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// A garden and a plan for it, read.
struct Opened {
  load::LoadedGarden loaded;
  garden::Plan plan;
};

/// The embedded rows, with those of `--crops FILE`. Empty only if an error was reported.
[[nodiscard]] std::optional<catalogue::Catalogue> open_catalogue(const Shared& shared,
                                                                 diagnostic::Diagnostics& out);

/// Reads a garden; a folder stands for the garden.yaml in it. Empty only if an error was reported.
[[nodiscard]] std::optional<load::LoadedGarden> open_garden(const std::string& path,
                                                            const Shared& shared,
                                                            diagnostic::Diagnostics& out);

/// Reads a garden and a plan.
[[nodiscard]] std::optional<Opened> open_both(const std::string& garden, const std::string& plan,
                                              const Shared& shared, diagnostic::Diagnostics& out);

/// The same, with what there is to tell printed on standard error.
[[nodiscard]] std::optional<Opened> open_and_tell(const std::string& garden,
                                                  const std::string& plan, const Shared& shared);

/// garden.yaml of a folder, or the path itself.
[[nodiscard]] std::string garden_file(const std::string& path);

/// The beds that a name stands for, all where it is empty. Complains and gives none where it is
/// unknown.
[[nodiscard]] std::vector<garden::BedId> chosen_beds(const garden::Garden& garden,
                                                     const std::string& name);

}  // namespace aftercrop::cli
