// Writes a garden's plan as a mixed integer program, has it solved by cbc, and shows its plan and
// the sequencer's side by side, each valued in both models.
// usage: general GARDEN [--within SECONDS] [--threads N] [--gap SHARE] [--mps FILE] [--json]
#include <cstdio>
#include <fstream>
#include <sstream>

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "aftercrop/check/check.h"
#include "aftercrop/load/load.h"
#include "aftercrop/sequencer/appraisal.h"
#include "aftercrop/sequencer/sequence.h"
#include "bench/general/garden_rows.h"
#include "bench/general/solve.h"

namespace {

using namespace aftercrop;

struct Options {
  std::string garden;
  std::string mps;
  double within = 60.0;
  double gap = 0.0;
  int threads = 2;
  bool json = false;
};

struct Side {
  std::optional<double> value;    ///< by the sequencer's objective
  std::optional<double> general;  ///< by the program
  std::optional<double> bound;
  double seconds = 0.0;
  std::optional<double> to_gap;  ///< seconds to a gap of 1 %
  std::optional<long> errors;    ///< findings of the checker
};

load::TextOrReason read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return {{}, "cannot be opened"};
  std::ostringstream text;
  text << in.rdbuf();
  return {text.str(), {}};
}

std::string shown(const std::optional<double>& value, const char* unit = "") {
  return value ? fmt::format("{:.3f}{}", *value, unit) : "-";
}

nlohmann::json as_json(const std::optional<double>& value) {
  return value ? nlohmann::json(*value) : nlohmann::json();
}

nlohmann::json as_json(const Side& side) {
  return {{"value", as_json(side.value)},
          {"general_value", as_json(side.general)},
          {"bound", as_json(side.bound)},
          {"seconds", side.seconds},
          {"seconds_to_1_percent", as_json(side.to_gap)},
          {"errors", side.errors ? nlohmann::json(*side.errors) : nlohmann::json()}};
}

class Comparison {
 public:
  Comparison(const load::LoadedGarden& loaded, const Options& options)
      : options_(options), loaded_(loaded), climates_(loaded.garden, loaded.catalogue) {}

  bool run() {
    run_sequencer();
    bench::GardenRows rows(loaded_.garden, loaded_.catalogue, climates_);
    columns_ = rows.program().columns();
    whole_ = rows.program().whole_columns();
    row_count_ = rows.program().rows();
    const auto solved =
        bench::solve(rows.program(), options_.mps, options_.within, options_.threads);
    if (!solved) return false;
    status_ = solved->status;
    general_.seconds = solved->seconds;
    general_.to_gap = solved->seconds_to_gap;
    if (solved->bound) general_.bound = *solved->bound + rows.constant();
    if (solved->value) {
      general_.general = *solved->value + rows.constant();
      value(rows.plan_of(solved->columns), general_);
    }
    // The sequencer's plan in the program: its stands fixed, the rest left to the solver.
    known_ = rows.fix(plan_);
    const auto fixed = bench::solve(rows.program(), options_.mps + ".fixed", options_.within, 1);
    if (fixed && fixed->value && known_) ours_.general = *fixed->value + rows.constant();
    return true;
  }

  void print() const {
    if (options_.json) {
      const nlohmann::json out = {{"columns", columns_},         {"whole_columns", whole_},
                                  {"rows", row_count_},          {"status", status_},
                                  {"sequencer", as_json(ours_)}, {"general", as_json(general_)}};
      fmt::print("{}\n", out.dump(2));
      return;
    }
    fmt::print("program    {} columns ({} whole), {} rows; {} s on {} threads\n", columns_, whole_,
               row_count_, options_.within, options_.threads);
    fmt::print("{:<11} {:>14} {:>14} {:>14} {:>10} {:>10} {:>7}\n", "", "value", "in program",
               "bound", "seconds", "to 1 %", "errors");
    line("sequencer", ours_);
    line("cbc", general_);
    fmt::print("cbc says   {}\n", status_);
    if (!known_) fmt::print("the sequencer's plan has stands that the program does not know\n");
    for (const Side* side : {&ours_, &general_}) {
      if (!side->value || !side->general) continue;
      fmt::print("linearisation error of {} plan: {:.3f}, {:.3f} % of its value\n",
                 side == &ours_ ? "the sequencer's" : "cbc's", *side->general - *side->value,
                 100.0 * (*side->general - *side->value) / std::abs(*side->value));
    }
  }

 private:
  void run_sequencer() {
    sequencer::Stop stop;
    stop.within_seconds = options_.within;
    stop.gap = options_.gap;
    const auto outcome = sequencer::sequence(
        loaded_.garden, loaded_.catalogue, climates_, stop, [&](const sequencer::Progress& now) {
          const bool plan = now.step != "prices" && now.step != "bound";
          const bool near = now.bound && *now.bound - now.value <= 0.01 * std::abs(*now.bound);
          if (plan && near && !ours_.to_gap) ours_.to_gap = now.seconds;
        });
    plan_ = outcome.plan;
    ours_.bound = outcome.bound;
    ours_.seconds = outcome.seconds;
    value(plan_, ours_);
  }

  void value(const garden::Plan& plan, Side& side) const {
    const sequencer::Appraisal appraisal(loaded_.garden, loaded_.catalogue, climates_, plan);
    side.value = appraisal.whole().total();
    const auto judged = check::judge(loaded_.garden, loaded_.catalogue, climates_, plan);
    side.errors = 0;
    for (const auto& one : judged.findings.all()) {
      if (one.severity == diagnostic::Severity::Error) ++*side.errors;
    }
  }

  static void line(const char* name, const Side& side) {
    fmt::print("{:<11} {:>14} {:>14} {:>14} {:>10.2f} {:>10} {:>7}\n", name, shown(side.value),
               shown(side.general), shown(side.bound), side.seconds, shown(side.to_gap),
               side.errors ? fmt::format("{}", *side.errors) : "-");
  }

  const Options& options_;
  const load::LoadedGarden& loaded_;
  ledger::SiteClimates climates_;
  garden::Plan plan_;
  Side ours_;
  Side general_;
  std::string status_;
  bool known_ = true;
  std::size_t columns_ = 0;
  std::size_t whole_ = 0;
  std::size_t row_count_ = 0;
};

}  // namespace

int main(int argc, char** argv) {
  Options options;
  CLI::App app("the sequencer's model as a mixed integer program, solved by cbc");
  app.add_option("garden", options.garden)->required();
  app.add_option("--mps", options.mps, "file for the program")->default_val("garden.mps");
  app.add_option("--within", options.within, "seconds for each")->default_val(60.0);
  app.add_option("--gap", options.gap, "share at which the sequencer stops")->default_val(0.0);
  app.add_option("--threads", options.threads, "threads of cbc")->default_val(2);
  app.add_flag("--json", options.json);
  CLI11_PARSE(app, argc, argv);
  diagnostic::Diagnostics said;
  const auto loaded =
      load::load_garden(options.garden, load::embedded_catalogue(), read_file, said);
  if (!loaded) {
    for (const auto& one : said.all()) fmt::print(stderr, "{}\n", one.message);
    return 2;
  }
  Comparison comparison(*loaded, options);
  if (!comparison.run()) {
    fmt::print(stderr, "general: cbc did not run; install the package coinor-cbc\n");
    return 2;
  }
  comparison.print();
  return 0;
}
