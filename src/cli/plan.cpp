#include <fmt/format.h>

#include <filesystem>

#include "aftercrop/emit/json.h"
#include "aftercrop/emit/plan_yaml.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/measures.h"
#include "cli/plan_run.h"
#include "cli/plan_summary.h"
#include "cli/read_file.h"
#include "cli/replan.h"
#include "cli/report.h"
#include "cli/terminal.h"
#include "cli/write_file.h"

namespace aftercrop::cli {
namespace {

std::optional<Limits> read_limits(const PlanOptions& options) {
  const auto within = parse_duration(options.within);
  if (!within) {
    complain(
        fmt::format("--within {}: write a time with its unit, as 60s, 2m or 1h", options.within));
    return {};
  }
  const auto gap = parse_percent(options.gap);
  if (!gap) {
    complain(
        fmt::format("--gap {}: write a share of the value in percent, as 1% or 0.5%", options.gap));
    return {};
  }
  const auto memory =
      options.memory.empty() ? std::optional<double>(0.0) : parse_memory(options.memory);
  if (!memory) {
    complain(
        fmt::format("--memory {}: write a size with its unit, as 500MB or 2GB", options.memory));
    return {};
  }
  return Limits{*within, *gap, *memory};
}

std::string output_of(const PlanOptions& options) {
  if (!options.output.empty()) return options.output;
  const std::filesystem::path garden = garden_file(options.garden);
  return (garden.parent_path() / "plan.yaml").string();
}

/// A garden, and the plan that is taken up again in it.
struct Task {
  load::LoadedGarden loaded;
  std::optional<Replanning> again;
  [[nodiscard]] const load::LoadedGarden& ground() const { return again ? again->garden : loaded; }
};

/// Empty if an error was told.
std::optional<Task> open(const PlanOptions& options, const Shared& shared) {
  diagnostic::Diagnostics told;
  std::optional<Task> task;
  if (auto loaded = open_garden(options.garden, shared, told)) task = Task{std::move(*loaded), {}};
  if (task && !options.keep.empty()) {
    const auto kept = load::load_plan(options.keep, task->loaded, read_file, told);
    if (!kept) {
      task.reset();
    } else if (options.as_of.empty()) {
      keep_stands(*kept, task->loaded.garden);
    } else {
      task->again = take_up(task->loaded, *kept, *calendar::Date::parse(options.as_of));
    }
  }
  print_findings(stderr, told, shared);
  return task;
}

/// What is asked for together and cannot be; empty if all is well.
std::string clash(const PlanOptions& options) {
  if (options.as_of.empty()) return {};
  if (options.keep.empty()) {
    return "--as-of says from when a plan is taken up again: name it with --keep PLAN";
  }
  if (!calendar::Date::parse(options.as_of)) {
    return fmt::format("--as-of {}: write a day, as 2027-06-14", options.as_of);
  }
  if (!options.certificate.empty()) {
    return "a certificate is about a whole plan; it cannot be had for one that is taken up again";
  }
  return {};
}

/// A certificate is made anew each time: it replaces another certificate, and nothing else.
std::optional<std::string> write_certificate(const Planned& planned, const PlanOptions& options,
                                             bool force) {
  const std::string& path = options.certificate;
  const auto old = read_file(path);
  const bool ours = old.text && old.text->find("\"certificate\"") < 8;
  if (old.text && !ours && !force) return "it is there and is no certificate; --force replaces it";
  return write_whole(path, emit::certificate_json(planned.loaded.garden, planned.loaded.catalogue,
                                                  planned.outcome));
}

void print_result(const Planned& planned, const PlanOptions& options, const Shared& shared,
                  const std::vector<explain::PlanChange>* changes) {
  const std::string output = output_of(options);
  std::FILE* const stream = is_stream(output) ? stderr : stdout;
  if (shared.format == Format::Json) {
    print(stream, emit::plan_json(planned.loaded.garden, planned.loaded.catalogue, planned.outcome,
                                  planned.judgement.findings, changes));
    return;
  }
  if (!shared.quiet) print(stream, plan_summary(planned));
  if (options.stats) print(stream, plan_stats(planned));
}

/// Plan and certificate; false if one could not be written, which is then told.
bool write_files(const Planned& planned, const PlanOptions& options, const Shared& shared) {
  const std::string output = output_of(options);
  const std::string text =
      emit::plan_yaml(planned.loaded.garden, planned.loaded.catalogue, planned.outcome.plan);
  if (const auto failure = write_output(output, text, shared.force)) {
    complain(fmt::format("{} is not written: {}", output, *failure));
    return false;
  }
  if (options.certificate.empty()) return true;
  const auto failure = write_certificate(planned, options, shared.force);
  if (failure) complain(fmt::format("{} is not written: {}", options.certificate, *failure));
  return !failure;
}

}  // namespace

ExitCode run_plan(const PlanOptions& options, const Shared& shared) {
  const auto limits = read_limits(options);
  if (!limits) return ExitCode::Unusable;
  if (const std::string trouble = clash(options); !trouble.empty()) {
    complain(trouble);
    return ExitCode::Unusable;
  }
  const std::string output = output_of(options);
  // Asked before the search, so that nobody waits a minute for a refusal.
  const auto refusal = shared.force ? std::nullopt : why_not_replace(output, {});
  if (refusal) {
    complain(fmt::format("{} is not replaced: {}", output, *refusal));
    return ExitCode::Unusable;
  }
  const auto task = open(options, shared);
  if (!task) return ExitCode::Unusable;
  Planned planned = make_plan(task->ground(), *limits, shared);
  std::vector<explain::PlanChange> changes;
  if (task->again) changes = settle(*task->again, planned);
  if (!write_files(planned, options, shared)) return ExitCode::Unusable;
  print_result(planned, options, shared, task->again ? &changes : nullptr);
  if (task->again && shared.format == Format::Text && !shared.quiet) {
    print(is_stream(output) ? stderr : stdout, change_rows(changes, *task->again));
  }
  if (!shared.quiet && !is_stream(output)) {
    print(stderr, fmt::format("wrote {}; `aftercrop check {} {}` lists its findings\n", output,
                              options.garden, output));
  }
  return verdict(planned);
}

}  // namespace aftercrop::cli
