#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/climate/outlook.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/explain/changes.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"
#include "aftercrop/sequencer/sequence.h"

namespace aftercrop::emit {

/// Each is one JSON document with a line break at its end. Keys keep their order and are never
/// renamed; text is valid UTF-8; a figure that is not known is null.

/// The outcome of planning: value, bound, wants, nitrogen and how many findings the plan has;
/// `changes` only where a plan was taken up again.
[[nodiscard]] std::string plan_json(const garden::Garden& garden,
                                    const catalogue::Catalogue& catalogue,
                                    const sequencer::Outcome& outcome,
                                    const diagnostic::Diagnostics& findings,
                                    const std::vector<explain::PlanChange>* changes = nullptr);

/// The value by term, and all that is needed to work the bound out again. Numbers in full.
[[nodiscard]] std::string certificate_json(const garden::Garden& garden,
                                           const catalogue::Catalogue& catalogue,
                                           const sequencer::Outcome& outcome);

/// Findings with their places, and how many there are of each severity.
[[nodiscard]] std::string check_json(const diagnostic::Diagnostics& findings);

/// Both accounts of beds: pools and postings in kg N/ha, loads in units of the damage threshold.
[[nodiscard]] std::string ledger_json(const garden::Garden& garden,
                                      const catalogue::Catalogue& catalogue,
                                      const std::vector<ledger::BedAccount>& accounts);

/// Rows of each table of the catalogue, and their figures by grade.
[[nodiscard]] std::string summary_json(const catalogue::Catalogue& catalogue);

/// When one crop may be started at a garden's site, under one shelter.
struct SeasonsUnder {
  garden::Shelter shelter = garden::Shelter::Open;
  std::vector<climate::Season> seasons;
};

struct SeasonsHere {
  std::string climate;  ///< its name
  std::vector<SeasonsUnder> under;
};

/// What was asked of a place.
struct AskedPlace {
  std::string climate;                     ///< its name
  std::vector<climate::Outlook> outlooks;  ///< of a week, one a crop; empty = none was asked
  std::optional<SeasonsHere> seasons;      ///< of one crop alone
};

/// Rows of the catalogue as they were read, each with its sources and, where a week was asked for,
/// what comes of it then.
[[nodiscard]] std::string crops_json(const catalogue::Catalogue& catalogue,
                                     const std::vector<catalogue::CropId>& crops,
                                     const AskedPlace& asked = {});

}  // namespace aftercrop::emit
