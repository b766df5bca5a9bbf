#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::emit {

struct LedgerTextOptions {
  int width = 80;           ///< columns; never wider
  bool lines = false;       ///< posting by posting, in kg N/ha, with sources
  std::optional<int> year;  ///< only this ISO year
};

/// A bed's two accounts for reading: a line a year, then each year on a screen of its own: opening,
/// what came in, what went out, closing, what is short and what would feed it, what is left before
/// the wet season, loads of disease against their thresholds. Grams or ounces of nitrogen for the
/// whole bed, by the garden's units; kg N/ha with `lines` only.
[[nodiscard]] std::string ledger_text(const garden::Garden& garden,
                                      const catalogue::Catalogue& catalogue,
                                      const ledger::BedAccount& account,
                                      const LedgerTextOptions& options);

/// Which climate the garden's figures stand on, how good its source is, and the attribution that
/// its licence asks for.
[[nodiscard]] std::string climate_text(const garden::Site& site, int width);

/// The same in a line: place, years, how good they are, who measured and under which licence.
[[nodiscard]] std::string climate_line(const garden::Site& site);

/// RFC 4180, UTF-8, CRLF: every posting (kg N/ha) and every change of a load (in units of the
/// damage threshold), with low, high, cause and source. A text cell that a spreadsheet would take
/// for a formula gets an apostrophe.
[[nodiscard]] std::string ledger_csv(const garden::Garden& garden,
                                     const catalogue::Catalogue& catalogue,
                                     const std::vector<ledger::BedAccount>& accounts,
                                     std::optional<int> year);

}  // namespace aftercrop::emit
