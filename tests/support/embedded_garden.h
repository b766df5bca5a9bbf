#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/ledger/account.h"
#include "aftercrop/load/load.h"

// Gardens typed in a test or lying beside one, read with the program's own rows.
namespace aftercrop::support {

inline std::string file_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline load::LoadedGarden embedded_garden(const std::string& text) {
  const load::ReadText read = [&](const std::string&) -> load::TextOrReason { return {text, {}}; };
  diagnostic::Diagnostics said;
  auto loaded = load::load_garden("lot/garden.yaml", load::embedded_catalogue(), read, said);
  std::string trouble;
  for (const auto& one : said.all()) {
    if (one.severity == diagnostic::Severity::Error) trouble += diagnostic::render_full(one, {});
  }
  REQUIRE_MESSAGE(loaded.has_value(), trouble);
  return std::move(*loaded);
}

/// The account of one bed of a garden, without a plan. Postings point into `loaded`.
inline ledger::BedAccount account_of(const load::LoadedGarden& loaded, const std::string& bed) {
  const std::vector<garden::BedId> beds = loaded.garden.find(bed);
  REQUIRE_MESSAGE(!beds.empty(), bed);
  const ledger::SiteClimates climates(loaded.garden, loaded.catalogue);
  const ledger::BedLedger ledger(loaded.catalogue, loaded.garden, beds.front(),
                                 climates.of(loaded.garden.bed(beds.front()).shelter),
                                 ledger::tracked_pathogens(loaded.garden, loaded.catalogue, true));
  return ledger::account(ledger, loaded.garden, garden::Plan());
}

}  // namespace aftercrop::support
