#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/exit_code.h"

namespace aftercrop::cli {

enum class Format { Text, Json, Csv };
enum class ColorChoice { Auto, Always, Never };

/// The options that every command takes.
struct Shared {
  Format format = Format::Text;
  ColorChoice color = ColorChoice::Auto;
  bool quiet = false;
  bool force = false;
  std::string crops;  ///< file of additional rows; empty = none
};

struct NewOptions {
  std::string folder;
  int beds = 6;
  std::string climate;  ///< empty = frost dates to fill in
  std::string units = "metric";
  int season = 0;  ///< 0 = the next one
};

struct PlanOptions {
  std::string garden;
  std::string output;  ///< empty = plan.yaml beside the garden
  std::string within = "60s";
  std::string gap = "1%";
  std::string memory;       ///< empty = no limit
  std::string keep;         ///< a plan whose stands are kept; empty = none
  std::string as_of;        ///< day on which `keep` is taken up again; empty = all of it stays
  std::string certificate;  ///< file for the bound's proof; empty = none
  bool stats = false;
};

struct CheckOptions {
  std::string garden;  ///< or a plan that carries its own site
  std::string plan;    ///< empty = the garden's own history
};

struct LedgerOptions {
  std::string garden;
  std::string plan;
  std::string bed;  ///< empty = all
  std::optional<int> year;
  bool lines = false;
  std::string units;  ///< metric or us; empty = the garden's
};

struct CalendarOptions {
  std::string garden;
  std::string plan;
  std::vector<std::string> outputs;
  std::string bed;  ///< empty = all
  bool plantings = false;
  std::string as_of;  ///< "today", as YYYY-MM-DD; empty = not said
  std::optional<int> remind_days;
};

struct ExplainOptions {
  std::string garden;
  std::string plan;
  std::string bed;
  std::string week;  ///< 2027-W20, or a day in it
  std::string crop;  ///< empty = none asked for
};

struct CropsOptions {
  std::string id;      ///< empty = a list
  std::string family;  ///< empty = all
  bool cover = false;
  std::string host_of;  ///< a disease; empty = all
  std::string sow_in;   ///< a week or a day; empty = any
  std::string garden;   ///< whose climate `sow_in` asks, whose units are printed
  bool summary = false;
};

/// Each runs one command: results to standard output, talk to standard error.
[[nodiscard]] ExitCode run_here(const Shared& shared);
[[nodiscard]] ExitCode run_new(const NewOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_plan(const PlanOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_check(const CheckOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_ledger(const LedgerOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_calendar(const CalendarOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_explain(const ExplainOptions& options, const Shared& shared);
[[nodiscard]] ExitCode run_crops(const CropsOptions& options, const Shared& shared);

}  // namespace aftercrop::cli
