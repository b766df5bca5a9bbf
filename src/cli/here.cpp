#include <fmt/format.h>

#include <filesystem>

#include "aftercrop/emit/plan_yaml.h"
#include "cli/calendar_forms.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/plan_run.h"
#include "cli/plan_summary.h"
#include "cli/report.h"
#include "cli/terminal.h"
#include "cli/write_file.h"

namespace aftercrop::cli {
namespace {

constexpr const char* kGarden = "garden.yaml";
constexpr const char* kPlan = "plan.yaml";
constexpr const char* kCalendar = "calendar.html";

bool may_write(const Shared& shared) {
  if (shared.force) return true;
  bool may = true;
  for (const char* path : {kPlan, kCalendar}) {
    if (const auto refusal = why_not_replace(path, {})) {
      complain(fmt::format("{} is not replaced: {}", path, *refusal));
      may = false;
    }
  }
  return may;
}

bool write_both(const Planned& planned, const Shared& shared) {
  const garden::Garden& garden = planned.loaded.garden;
  const catalogue::Catalogue& catalogue = planned.loaded.catalogue;
  const garden::Plan& plan = planned.outcome.plan;
  if (const auto failure =
          write_output(kPlan, emit::plan_yaml(garden, catalogue, plan), shared.force)) {
    complain(fmt::format("{} is not written: {}", kPlan, *failure));
    return false;
  }
  const CalendarFiles files{
      garden,       catalogue, plan, planned.judgement, planned.climates, {}, false,
      shared.force, {},        {}};
  return write_calendars(files, {kCalendar});
}

}  // namespace

ExitCode run_here(const Shared& shared) {
  std::error_code error;
  if (!std::filesystem::exists(kGarden, error)) {
    complain(
        "there is no garden.yaml here; `aftercrop new DIR` makes one to start from, "
        "`aftercrop --help` lists the commands");
    return ExitCode::Unusable;
  }
  if (!may_write(shared)) return ExitCode::Unusable;
  diagnostic::Diagnostics told;
  const auto loaded = open_garden(kGarden, shared, told);
  print_findings(stderr, told, shared);
  if (!loaded) return ExitCode::Unusable;
  const Planned planned = make_plan(*loaded, {}, shared);
  if (!write_both(planned, shared)) return ExitCode::Unusable;
  Shared errors_only = shared;
  errors_only.quiet = true;
  print_findings(stderr, planned.judgement.findings, errors_only);
  if (!shared.quiet) {
    print(stdout, plan_summary(planned));
    print(stdout, summary_row("open",
                              "calendar.html in a browser: the week, the beds, what to order; the "
                              "plan is plan.yaml"));
  }
  return planned.judgement.findings.has_errors() ? ExitCode::Findings : verdict(planned);
}

}  // namespace aftercrop::cli
