#include <fmt/format.h>

#include "cli/calendar_forms.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/terminal.h"
#include "cli/write_file.h"

namespace aftercrop::cli {

ExitCode run_calendar(const CalendarOptions& options, const Shared& shared) {
  for (const std::string& path : options.outputs) {
    if (const auto refusal = why_no_calendar(path)) {
      complain(*refusal);
      return ExitCode::Unusable;
    }
  }
  std::optional<calendar::Date> as_of;
  if (!options.as_of.empty()) {
    as_of = calendar::Date::parse(options.as_of);
    if (!as_of) {
      complain(fmt::format("--as-of {}: write a day as 2027-05-24", options.as_of));
      return ExitCode::Unusable;
    }
  }
  const auto opened = open_and_tell(options.garden, options.plan, shared);
  if (!opened) return ExitCode::Unusable;
  const garden::Garden& garden = opened->loaded.garden;
  const catalogue::Catalogue& catalogue = opened->loaded.catalogue;
  if (chosen_beds(garden, options.bed).empty()) return ExitCode::Unusable;
  const ledger::SiteClimates climates(garden, catalogue);
  const check::Judgement judgement = check::judge(garden, catalogue, climates, opened->plan);
  const CalendarFiles files{garden,   catalogue,          opened->plan,      judgement,
                            climates, options.bed,        options.plantings, shared.force,
                            as_of,    options.remind_days};
  if (!write_calendars(files, options.outputs)) return ExitCode::Unusable;
  for (const std::string& path : options.outputs) {
    if (!shared.quiet && !is_stream(path)) print(stderr, fmt::format("wrote {}\n", path));
  }
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
