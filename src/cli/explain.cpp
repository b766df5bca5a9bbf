#include "aftercrop/explain/explain.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/emit/explain.h"
#include "aftercrop/load/names.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/report.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

/// A week as 2027-W20 or as a day in it.
std::optional<calendar::Week> read_week(const std::string& text) {
  if (const auto week = calendar::parse_week(text)) return week;
  if (const auto day = calendar::Date::parse(text)) return calendar::week_of(*day);
  complain(fmt::format("--week {}: write a week as 2027-W20, or a day in it as 2027-05-17", text));
  return {};
}

std::optional<catalogue::CropId> read_crop(const std::string& name,
                                           const catalogue::Catalogue& rows, const Shared& shared) {
  diagnostic::Diagnostics told;
  const auto crop = load::find_crop(name, rows, {}, told);
  print_findings(stderr, told, shared);
  return crop;
}

/// True, and told, where neither the seasons nor a stand of these beds reach the week.
bool beyond_plan(const garden::Garden& garden, const garden::Plan& plan,
                 const std::vector<garden::BedId>& beds, calendar::Week week) {
  if (week < garden.seasons.past) return false;
  for (const garden::Planting& planting : plan.plantings) {
    const bool here = std::find(beds.begin(), beds.end(), planting.bed) != beds.end();
    if (here && week < garden::weeks_of(planting).past) return false;
  }
  complain(fmt::format("--week {}: the seasons end on {}, and no stand there reaches that week",
                       calendar::text(week),
                       calendar::monday(garden.seasons.past).plus_days(-1).text()));
  return true;
}

}  // namespace

ExitCode run_explain(const ExplainOptions& options, const Shared& shared) {
  const auto opened = open_and_tell(options.garden, options.plan, shared);
  if (!opened) return ExitCode::Unusable;
  const garden::Garden& garden = opened->loaded.garden;
  const catalogue::Catalogue& catalogue = opened->loaded.catalogue;
  const auto week = read_week(options.week);
  const std::vector<garden::BedId> beds = chosen_beds(garden, options.bed);
  if (!week || beds.empty()) return ExitCode::Unusable;
  if (beyond_plan(garden, opened->plan, beds, *week)) return ExitCode::Unusable;
  std::optional<catalogue::CropId> crop;
  if (!options.crop.empty()) {
    crop = read_crop(options.crop, catalogue, shared);
    if (!crop) return ExitCode::Unusable;
  }
  if (beds.size() > 1 && shared.format == Format::Json) {
    complain(fmt::format("bed {} has {} sections; name one, as {}", options.bed, beds.size(),
                         garden.bed(beds.front()).name));
    return ExitCode::Unusable;
  }
  const ledger::SiteClimates climates(garden, catalogue);
  for (std::size_t i = 0; i < beds.size(); ++i) {
    const explain::Explanation told =
        explain::explain(garden, catalogue, climates, opened->plan, {beds[i], *week, crop});
    const emit::Explained explained{garden, catalogue, climates.of(garden.bed(beds[i]).shelter),
                                    told, crop};
    if (i > 0) print(stdout, "\n");
    print(stdout, shared.format == Format::Json ? emit::explain_json(explained)
                                                : emit::explain_text(explained, terminal_width()));
  }
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
