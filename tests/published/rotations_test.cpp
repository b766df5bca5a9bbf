#include <doctest/doctest.h>

#include "support/verdict.h"

// Rotations that publications recommend and that have no number in the disease table.
using namespace aftercrop;

TEST_CASE("rotations R4: four organic beds") {
  // sustainablegarden.co.uk: potatoes, legumes, brassicas, roots and alliums: 3 seasons off.
  const support::Verdict verdict = support::cycle(
      "potato, pea-shell + bush-bean, cabbage-late + chard, carrot + garlic", "A..D");
  CHECK(verdict.successions(diagnostic::Severity::Error) == "");
}
