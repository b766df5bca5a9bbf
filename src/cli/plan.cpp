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
  return Limits{*within, *gap};
}

std::string output_of(const PlanOptions& options) {
  if (!options.output.empty()) return options.output;
  const std::filesystem::path garden = garden_file(options.garden);
  return (garden.parent_path() / "plan.yaml").string();
}

/// The garden with what is to be kept in it; empty if an error was told.
std::optional<load::LoadedGarden> open(const PlanOptions& options, const Shared& shared) {
  diagnostic::Diagnostics told;
  auto loaded = open_garden(options.garden, shared, told);
  if (loaded && !options.keep.empty()) {
    const auto kept = load::load_plan(options.keep, *loaded, read_file, told);
    if (kept) {
      keep_stands(*kept, loaded->garden);
    } else {
      loaded.reset();
    }
  }
  print_findings(stderr, told, shared);
  return loaded;
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
                  std::FILE* stream) {
  if (shared.format == Format::Json) {
    print(stream, emit::plan_json(planned.loaded.garden, planned.loaded.catalogue, planned.outcome,
                                  planned.judgement.findings));
    return;
  }
  if (!shared.quiet) print(stream, plan_summary(planned));
  if (options.stats) print(stream, plan_stats(planned));
}

}  // namespace

ExitCode run_plan(const PlanOptions& options, const Shared& shared) {
  const auto limits = read_limits(options);
  if (!limits) return ExitCode::Unusable;
  const std::string output = output_of(options);
  // Asked before the search, so that nobody waits a minute for a refusal.
  const auto refusal = shared.force ? std::nullopt : why_not_replace(output, {});
  if (refusal) {
    complain(fmt::format("{} is not replaced: {}", output, *refusal));
    return ExitCode::Unusable;
  }
  const auto loaded = open(options, shared);
  if (!loaded) return ExitCode::Unusable;
  const Planned planned = make_plan(*loaded, *limits, shared);
  const std::string text = emit::plan_yaml(loaded->garden, loaded->catalogue, planned.outcome.plan);
  if (const auto failure = write_output(output, text, shared.force)) {
    complain(fmt::format("{} is not written: {}", output, *failure));
    return ExitCode::Unusable;
  }
  if (!options.certificate.empty()) {
    if (const auto failure = write_certificate(planned, options, shared.force)) {
      complain(fmt::format("{} is not written: {}", options.certificate, *failure));
      return ExitCode::Unusable;
    }
  }
  print_result(planned, options, shared, is_stream(output) ? stderr : stdout);
  if (!shared.quiet && !is_stream(output)) {
    print(stderr, fmt::format("wrote {}; `aftercrop check {} {}` lists its findings\n", output,
                              options.garden, output));
  }
  return verdict(planned);
}

}  // namespace aftercrop::cli
