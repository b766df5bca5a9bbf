#pragma once

#include <string>

#include "aftercrop/emit/ledger_text.h"

namespace aftercrop::emit {

/// The loads of a bed: opening, events, closing, and what that means for a prone crop.
[[nodiscard]] std::string disease_text(const catalogue::Catalogue& catalogue,
                                       const ledger::BedAccount& account,
                                       const LedgerTextOptions& options);

}  // namespace aftercrop::emit
