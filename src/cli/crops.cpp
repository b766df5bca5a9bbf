#include "aftercrop/emit/json.h"
#include "aftercrop/load/names.h"
#include "cli/commands.h"
#include "cli/crop_choice.h"
#include "cli/crop_seasons.h"
#include "cli/crop_sheet.h"
#include "cli/crop_summary.h"
#include "cli/inputs.h"
#include "cli/report.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

using catalogue::Catalogue;
using catalogue::CropId;

/// One crop by name; empty and told where there is none.
std::optional<CropChoice> one(const Catalogue& catalogue, const std::string& name,
                              const Shared& shared) {
  diagnostic::Diagnostics told;
  const auto id = load::find_crop(name, catalogue, {}, told);
  print_findings(stderr, told, shared);
  if (!id) return {};
  CropChoice choice;
  choice.crops.push_back(*id);
  return choice;
}

/// `garden` = whose climate and units count; may be null.
ExitCode show(const Catalogue& catalogue, const garden::Garden* garden, const CropsOptions& options,
              const Shared& shared) {
  if (options.summary) {
    print(stdout,
          shared.format == Format::Json ? emit::summary_json(catalogue) : crop_summary(catalogue));
    return ExitCode::Fine;
  }
  const bool single = !options.id.empty();
  auto choice =
      single ? one(catalogue, options.id, shared) : choose_crops(catalogue, options, garden);
  if (!choice) return ExitCode::Unusable;
  const bool asks_when = single && !options.sow_in.empty();
  if (asks_when && !say_when(catalogue, options, garden, *choice)) return ExitCode::Unusable;
  if (shared.format == Format::Json) {
    emit::AskedPlace asked{choice->climate, choice->outlooks, {}};
    if (single && garden != nullptr) {
      asked.seasons = seasons_here(catalogue, catalogue.crop(choice->crops.front()), *garden);
    }
    print(stdout, emit::crops_json(catalogue, choice->crops, asked));
    return ExitCode::Fine;
  }
  const auto units = garden == nullptr ? garden::UnitSystem::Metric : garden->units;
  print(stdout,
        single ? crop_sheet(catalogue, *choice, garden) : crop_table(catalogue, *choice, units));
  return ExitCode::Fine;
}

}  // namespace

ExitCode run_crops(const CropsOptions& options, const Shared& shared) {
  if (!week_is_clear(options)) return ExitCode::Unusable;
  diagnostic::Diagnostics told;
  if (!options.garden.empty()) {
    const auto loaded = open_garden(options.garden, shared, told);
    if (!loaded) print_findings(stderr, told, shared);
    if (!loaded) return ExitCode::Unusable;
    return show(loaded->catalogue, &loaded->garden, options, shared);
  }
  // Without rows of the user's own the embedded ones are shown as they lie: no copy, and no more
  // of them than is asked for.
  if (shared.crops.empty()) {
    const bool all = options.summary || !options.host_of.empty() || !options.sow_in.empty();
    return show(all ? load::embedded_catalogue() : load::embedded_crops(), nullptr, options,
                shared);
  }
  const auto catalogue = open_catalogue(shared, told);
  print_findings(stderr, told, shared);
  return catalogue ? show(*catalogue, nullptr, options, shared) : ExitCode::Unusable;
}

}  // namespace aftercrop::cli
