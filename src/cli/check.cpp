#include "aftercrop/check/check.h"

#include <fmt/format.h>

#include "aftercrop/emit/json.h"
#include "aftercrop/load/tree.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/read_file.h"
#include "cli/report.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

/// A file that holds stands rather than a garden: it may carry its own site.
bool is_proposal(const std::string& path) {
  load::TextOrReason text = read_file(path);
  if (!text.text) return false;
  auto file = std::make_shared<diagnostic::SourceFile>();
  file->name = path;
  file->text = std::move(*text.text);
  diagnostic::Diagnostics unheard;  // the reader says it again, better
  const auto root = load::parse_yaml(file, unheard);
  if (root == nullptr || !root->is_map()) return false;
  return root->find("plantings") != nullptr || root->find("rotation") != nullptr;
}

std::optional<Opened> open(const CheckOptions& options, const Shared& shared,
                           diagnostic::Diagnostics& told) {
  if (!options.plan.empty()) return open_both(options.garden, options.plan, shared, told);
  if (is_proposal(options.garden)) {
    const auto base = open_catalogue(shared, told);
    if (!base) return {};
    auto proposal = load::load_proposal(options.garden, *base, read_file, told);
    if (!proposal) return {};
    return Opened{std::move(proposal->garden), std::move(proposal->plan)};
  }
  auto loaded = open_garden(options.garden, shared, told);
  if (!loaded) return {};
  return Opened{std::move(*loaded), {}};
}

void print_result(const diagnostic::Diagnostics& findings, const Shared& shared, std::FILE* text) {
  if (shared.format == Format::Json) {
    diagnostic::Diagnostics sorted = findings;
    sorted.sort();
    print(stdout, emit::check_json(sorted));
    return;
  }
  print_findings(text, findings, shared);
}

}  // namespace

ExitCode run_check(const CheckOptions& options, const Shared& shared) {
  diagnostic::Diagnostics findings;
  const auto opened = open(options, shared, findings);
  if (!opened) {
    print_result(findings, shared, stderr);
    return ExitCode::Unusable;
  }
  const garden::Garden& garden = opened->loaded.garden;
  const ledger::SiteClimates climates(garden, opened->loaded.catalogue);
  const bool history_only = options.plan.empty() && opened->plan.plantings.empty();
  check::Ask ask;
  ask.history_only = history_only;
  ask.accounts = false;
  const check::Judgement judgement =
      check::judge(garden, opened->loaded.catalogue, climates, opened->plan, ask);
  findings.append(judgement.findings);
  print_result(findings, shared, stdout);
  if (shared.format == Format::Text && !shared.quiet) {
    print(stderr, count_text(findings) + "\n");
  }
  return findings.has_errors() ? ExitCode::Findings : ExitCode::Fine;
}

}  // namespace aftercrop::cli
