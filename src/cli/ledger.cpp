#include <fmt/format.h>

#include "aftercrop/emit/json.h"
#include "aftercrop/emit/ledger_text.h"
#include "aftercrop/ledger/account.h"
#include "cli/commands.h"
#include "cli/inputs.h"
#include "cli/terminal.h"

namespace aftercrop::cli {

namespace {

std::vector<ledger::BedAccount> accounts_of(const std::vector<garden::BedId>& beds,
                                            const Opened& opened, const catalogue::Catalogue& rows,
                                            const ledger::SiteClimates& climates) {
  const garden::Garden& garden = opened.loaded.garden;
  const auto tracked = ledger::tracked_pathogens(garden, rows, true);
  std::vector<ledger::BedAccount> accounts;
  for (const garden::BedId bed : beds) {
    const ledger::BedLedger ledger(rows, garden, bed, climates.of(garden.bed(bed).shelter),
                                   tracked);
    accounts.push_back(ledger::account(ledger, garden, opened.plan));
  }
  return accounts;
}

}  // namespace

ExitCode run_ledger(const LedgerOptions& options, const Shared& shared) {
  auto opened = open_and_tell(options.garden, options.plan, shared);
  if (!opened) return ExitCode::Unusable;
  if (!options.units.empty()) {
    opened->loaded.garden.units =
        options.units == "us" ? garden::UnitSystem::Us : garden::UnitSystem::Metric;
  }
  const garden::Garden& garden = opened->loaded.garden;
  const catalogue::Catalogue& catalogue = opened->loaded.catalogue;
  const std::vector<garden::BedId> beds = chosen_beds(garden, options.bed);
  if (beds.empty()) return ExitCode::Unusable;
  const ledger::SiteClimates climates(garden, catalogue);
  std::vector<ledger::BedAccount> accounts = accounts_of(beds, *opened, catalogue, climates);
  ledger::add_load_spans(accounts, garden, catalogue, climates, opened->plan);
  if (shared.format == Format::Json) {
    print(stdout, emit::ledger_json(garden, catalogue, accounts));
    return ExitCode::Fine;
  }
  if (shared.format == Format::Csv) {
    print(stdout, emit::ledger_csv(garden, catalogue, accounts, options.year));
    return ExitCode::Fine;
  }
  emit::LedgerTextOptions text;
  text.width = terminal_width();
  text.lines = options.lines;
  text.year = options.year;
  for (std::size_t i = 0; i < accounts.size(); ++i) {
    if (i > 0) print(stdout, "\n");
    print(stdout, emit::ledger_text(garden, catalogue, accounts[i], text));
  }
  print(stdout, "\n" + emit::climate_text(garden.site, text.width));
  return ExitCode::Fine;
}

}  // namespace aftercrop::cli
