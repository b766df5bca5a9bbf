#pragma once

#include <optional>
#include <string>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::emit {

struct LedgerTextOptions {
  int width = 80;           ///< columns
  bool lines = false;       ///< posting by posting, in kg N/ha, with sources
  std::optional<int> year;  ///< only this ISO year
};

/// A bed's two accounts for reading. Grams or ounces of nitrogen for the whole bed, by the
/// garden's units; kg N/ha with `lines` only.
[[nodiscard]] std::string ledger_text(const garden::Garden& garden,
                                      const catalogue::Catalogue& catalogue,
                                      const ledger::BedAccount& account,
                                      const LedgerTextOptions& options);

}  // namespace aftercrop::emit
