#include "cli/app.h"

#include <CLI/CLI.hpp>

#include <cstdio>
#include <map>

#include "cli/commands.h"
#include "cli/suggestion.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

/// Everything that a command line can say.
struct Words {
  Shared shared;
  NewOptions fresh;
  PlanOptions plan;
  CheckOptions check;
  LedgerOptions ledger;
  CalendarOptions calendar;
  ExplainOptions explain;
  CropsOptions crops;
  int year = 0;
};

constexpr int kMostBeds = 200;
constexpr int kFirstYear = 1900;
constexpr int kLastYear = 2200;
constexpr int kMostReminder = 60;

CLI::App* add_command(CLI::App& app, const char* name, const char* what, const char* example) {
  CLI::App* command = app.add_subcommand(name, what);
  command->footer(std::string("Example:\n  ") + example +
                  "\nOptions of every command: aftercrop --help");
  return command;
}

void add_shared(CLI::App& app, Shared& shared) {
  const std::map<std::string, Format> formats = {
      {"text", Format::Text}, {"json", Format::Json}, {"csv", Format::Csv}};
  const std::map<std::string, ColorChoice> colors = {
      {"auto", ColorChoice::Auto}, {"always", ColorChoice::Always}, {"never", ColorChoice::Never}};
  app.add_option("--format", shared.format, "text or json; csv for ledger")
      ->transform(CLI::Transformer(formats).description("text|json|csv"))
      ->option_text("text|json|csv");
  app.add_option("--color", shared.color, "when to colour; NO_COLOR is honoured")
      ->transform(CLI::Transformer(colors).description(""))
      ->option_text("auto|always|never");
  app.add_flag("--quiet,-q", shared.quiet, "say nothing but errors and what was asked for");
  app.add_flag("--force", shared.force, "replace output files even if somebody edited them");
  app.add_option("--crops", shared.crops, "rows of your own, in the form of the catalogue's files")
      ->option_text("FILE");
}

void add_new(CLI::App& app, NewOptions& options) {
  CLI::App* command = add_command(app, "new", "Write a commented garden.yaml to start from",
                                  "aftercrop new backyard --beds 8 --climate seattle --units us");
  command->add_option("DIR", options.folder, "folder; it is made if it is not there")->required();
  command->add_option("--beds", options.beds, "how many beds")->check(CLI::Range(1, kMostBeds));
  command->add_option("--climate", options.climate, "a place with your weather")
      ->option_text("NAME");
  command->add_option("--units", options.units, "metric or us")
      ->check(CLI::IsMember({"metric", "us"}))
      ->option_text("metric|us");
  command->add_option("--season", options.season, "year to plan; the next one if not said")
      ->check(CLI::Range(kFirstYear, kLastYear));
}

void add_plan(CLI::App& app, PlanOptions& options) {
  CLI::App* command = add_command(
      app, "plan", "Fill the seasons: which crop stands where and when",
      "aftercrop plan garden.yaml -o plan.yaml --within 2m\n"
      "Returns 1 if less than half of something you want can be met; the plan is written all\n"
      "the same, and the summary says what is short and why.");
  command->add_option("GARDEN", options.garden, "garden.yaml, or its folder")->required();
  command->add_option("-o,--output", options.output, "plan to write; plan.yaml beside the garden")
      ->option_text("PLAN");
  command->add_option("--within", options.within, "time to plan: 60s, 2m, 1h")->option_text("TIME");
  command->add_option("--gap", options.gap, "stop when no plan can be better by more: 1%")
      ->option_text("SHARE");
  command
      ->add_option("--memory", options.memory,
                   "keep about within it, with narrower searches: 500MB, 2GB")
      ->option_text("SIZE");
  command->add_option("--certificate", options.certificate,
                      "file for what `tools/verify` needs to work value and bound out again");
  command->add_option("--keep", options.keep, "plan whose plantings stay as they are")
      ->option_text("PLAN");
  command
      ->add_option("--as-of", options.as_of,
                   "with --keep: what began before this day stays, `ending: failed` is made up "
                   "for, the rest changes as little as pays")
      ->option_text("DATE");
  command->add_flag("--stats", options.stats,
                    "the value by term, the bound, the search in numbers");
}

void add_check(CLI::App& app, CheckOptions& options) {
  CLI::App* command = add_command(app, "check", "Judge a plan, a rotation, or what stood so far",
                                  "aftercrop check garden.yaml plan.yaml\n"
                                  "Returns 1 if there is a finding of severity error.");
  command->add_option("GARDEN", options.garden, "garden.yaml, or a plan with a site: of its own")
      ->required();
  command->add_option("PLAN", options.plan, "plan to judge; without it, the garden's history");
}

void add_ledger(CLI::App& app, Words& words) {
  LedgerOptions& options = words.ledger;
  CLI::App* command = add_command(app, "ledger", "Nitrogen and disease accounts, bed by bed",
                                  "aftercrop ledger garden.yaml plan.yaml --bed A.1 --lines");
  command->add_option("GARDEN", options.garden, "garden.yaml, or its folder")->required();
  command->add_option("PLAN", options.plan, "plan.yaml")->required();
  command->add_option("--bed", options.bed, "one bed or section")->option_text("BED");
  command->add_option("--year", words.year, "one year")->check(CLI::Range(kFirstYear, kLastYear));
  command->add_flag("--lines", options.lines, "every posting, in kg N/ha, with its source");
  command->add_option("--units", options.units, "metric or us; those of the garden if not said")
      ->check(CLI::IsMember({"metric", "us"}))
      ->option_text("metric|us");
}

void add_calendar(CLI::App& app, CalendarOptions& options) {
  CLI::App* command =
      add_command(app, "calendar", "What to do week by week, and what to order",
                  "aftercrop calendar garden.yaml plan.yaml -o page.html -o tasks.ics");
  command->add_option("GARDEN", options.garden, "garden.yaml, or its folder")->required();
  command->add_option("PLAN", options.plan, "plan.yaml")->required();
  command
      ->add_option(
          "-o,--output", options.outputs,
          "file; .html, .svg, .ics, .csv or .txt says the form; may be given several times")
      ->required()
      ->expected(1)
      ->take_all()
      ->option_text("FILE");
  command->add_option("--bed", options.bed, "one bed or section")->option_text("BED");
  command->add_flag("--plantings", options.plantings, "csv: a row a planting, not a row a task");
  command->add_option("--as-of", options.as_of, "html, svg: the day that counts as today")
      ->option_text("DATE");
  command
      ->add_option("--remind", options.remind_days,
                   "ics: ring so many days before, in the evening; 0 = that morning")
      ->check(CLI::Range(0, kMostReminder))
      ->option_text("DAYS");
}

void add_explain(CLI::App& app, ExplainOptions& options) {
  CLI::App* command =
      add_command(app, "explain", "Why this stands there, why not that, and what else could",
                  "aftercrop explain garden.yaml plan.yaml --bed A.1 --week 2027-W20 --crop kale");
  command->add_option("GARDEN", options.garden, "garden.yaml, or its folder")->required();
  command->add_option("PLAN", options.plan, "plan.yaml")->required();
  command->add_option("--bed", options.bed, "one bed or section")->required()->option_text("BED");
  command->add_option("--week", options.week, "a week as 2027-W20, or a day in it")
      ->required()
      ->option_text("WEEK");
  command->add_option("--crop", options.crop, "why not this one?")->option_text("CROP");
}

void add_crops(CLI::App& app, CropsOptions& options) {
  CLI::App* command = add_command(app, "crops", "Browse the catalogue: figures with their sources",
                                  "aftercrop crops --cover --sow-in 2027-W36 --garden garden.yaml");
  command->add_option("ID", options.id, "a crop by any of its names; without it, a list");
  command->add_option("--family", options.family, "only this family")->option_text("NAME");
  command->add_flag("--cover", options.cover, "only cover crops");
  command->add_option("--host-of", options.host_of, "only hosts of this disease")
      ->option_text("DISEASE");
  command->add_option("--sow-in", options.sow_in, "only what can be sown or set out in a week")
      ->option_text("WEEK");
  command
      ->add_option("--garden", options.garden, "garden.yaml, or its folder: its climate and units")
      ->option_text("FILE");
  command->add_flag("--summary", options.summary, "rows and figures, and how well founded");
}

ExitCode dispatch(const CLI::App& app, Words& words) {
  if (words.shared.format == Format::Csv && !app.got_subcommand("ledger")) {
    complain("only ledger has --format csv");
    return ExitCode::Unusable;
  }
  if (app.got_subcommand("new")) return run_new(words.fresh, words.shared);
  if (app.got_subcommand("plan")) return run_plan(words.plan, words.shared);
  if (app.got_subcommand("check")) return run_check(words.check, words.shared);
  if (app.got_subcommand("ledger")) {
    if (words.year != 0) words.ledger.year = words.year;
    return run_ledger(words.ledger, words.shared);
  }
  if (app.got_subcommand("calendar")) return run_calendar(words.calendar, words.shared);
  if (app.got_subcommand("explain")) return run_explain(words.explain, words.shared);
  if (app.got_subcommand("crops")) return run_crops(words.crops, words.shared);
  return run_here(words.shared);
}

void build(CLI::App& app, Words& words) {
  app.set_version_flag("--version", std::string("aftercrop ") + AFTERCROP_VERSION);
  app.require_subcommand(0, 1);
  app.fallthrough();
  app.footer(
      "Without a command, in a folder with garden.yaml: plans it, checks the plan and writes\n"
      "plan.yaml and calendar.html.\n"
      "Example:\n  aftercrop new backyard && cd backyard && aftercrop\n"
      "Returns 0 if all is well, 1 for findings of severity error or wants that are not half\n"
      "met, 2 for bad usage or files, 3 for a mistake of the program.");
  add_shared(app, words.shared);
  add_new(app, words.fresh);
  add_plan(app, words.plan);
  add_check(app, words.check);
  add_ledger(app, words);
  add_calendar(app, words.calendar);
  add_explain(app, words.explain);
  add_crops(app, words.crops);
}

/// Text that could not be handed over is not a success.
ExitCode after_flush(ExitCode code) {
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return code;
  complain("standard output cannot be written");
  return ExitCode::Unusable;
}

}  // namespace

ExitCode run(int argc, char** argv) {
  CLI::App app{"What follows what in garden beds", "aftercrop"};
  Words words;
  build(app, words);
  if (const auto complaint = misspelt(app, {argv + 1, argv + argc})) {
    complain(*complaint);
    return ExitCode::Unusable;
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? ExitCode::Fine : ExitCode::Unusable;
  }
  return after_flush(dispatch(app, words));
}

}  // namespace aftercrop::cli
