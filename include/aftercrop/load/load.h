#pragma once

#include <functional>
#include <optional>
#include <string>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::load {

/// Where texts come from: the real disk in `cli`, a map in tests. Empty = cannot be read; the
/// second member then says why ("No such file or directory").
struct TextOrReason {
  std::optional<std::string> text;
  std::string reason;
};
using ReadText = std::function<TextOrReason(const std::string& path)>;

/// The rows embedded in the program.
[[nodiscard]] const catalogue::Catalogue& embedded_catalogue();

/// Of those the families, crops, covers, residues and cautions alone: what shows a crop, at a third
/// of the time. No diseases, partners, climates, soils or amendments.
[[nodiscard]] const catalogue::Catalogue& embedded_crops();

/// The embedded rows plus a user's file (`--crops FILE` or `crops: FILE`): new rows, or single keys
/// of a row. Empty only if an error was reported.
[[nodiscard]] std::optional<catalogue::Catalogue> load_catalogue(const catalogue::Catalogue& base,
                                                                 const std::string& path,
                                                                 const ReadText& read,
                                                                 diagnostic::Diagnostics& out);

/// A garden file with the catalogue it asks for (its `crops:` key applied).
struct LoadedGarden {
  catalogue::Catalogue catalogue;
  garden::Garden garden;
};

/// Reads a garden. All mistakes are reported in one go; empty only if an error was reported.
/// What is assumed is said once, as notes.
[[nodiscard]] std::optional<LoadedGarden> load_garden(const std::string& path,
                                                      const catalogue::Catalogue& base,
                                                      const ReadText& read,
                                                      diagnostic::Diagnostics& out);

/// Reads a plan against its garden. Empty only if an error was reported.
[[nodiscard]] std::optional<garden::Plan> load_plan(const std::string& path,
                                                    const LoadedGarden& loaded,
                                                    const ReadText& read,
                                                    diagnostic::Diagnostics& out);

/// A plan that carries its own `site:`, with a garden made for it: its beds are whole, of 5 m2, and
/// its seasons the years of its stands.
struct Proposal {
  LoadedGarden garden;
  garden::Plan plan;
};

/// Reads such a plan without a garden file. Empty only if an error was reported.
[[nodiscard]] std::optional<Proposal> load_proposal(const std::string& path,
                                                    const catalogue::Catalogue& base,
                                                    const ReadText& read,
                                                    diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
