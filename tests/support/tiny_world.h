#pragma once

#include <string>

#include <doctest/doctest.h>

#include "aftercrop/ledger/account.h"
#include "support/tiny_gardens.h"

namespace aftercrop::support {

struct TinyWorld {
  load::LoadedGarden loaded;
  ledger::SiteClimates climates;
  explicit TinyWorld(load::LoadedGarden read)
      : loaded(std::move(read)), climates(loaded.garden, loaded.catalogue) {}
};

inline TinyWorld read_tiny(unsigned seed) {
  TinyGarden tiny(seed);
  diagnostic::Diagnostics said;
  const load::ReadText read = [&](const std::string&) -> load::TextOrReason {
    return {tiny.text(), {}};
  };
  auto loaded = load::load_garden("garden.yaml", load::embedded_catalogue(), read, said);
  std::string trouble;
  for (const auto& one : said.all()) {
    if (one.severity == diagnostic::Severity::Error) trouble += one.message + "\n";
  }
  REQUIRE_MESSAGE(loaded, trouble);
  tiny.shrink(loaded->catalogue);
  return TinyWorld(std::move(*loaded));
}

}  // namespace aftercrop::support
