#include "published/disease_tables.h"
#include "support/embedded_garden.h"

// The worked checks D1 to D55 of the disease ledger: the embedded rows, moved by the ledger's own
// maps and judged by the checker, against what trials and extension services printed. Misses are
// listed in README.md too.
using namespace aftercrop;

TEST_CASE("published: the disease table") {
  support::CheckTable table("disease");
  published::check_decay(table);
  published::check_maps(table);
  published::check_years_off(table);
  published::check_conditions(table);
  published::check_successions(table);
  published::check_rotations(table);
  table.finish('D', 55, support::file_text(AFTERCROP_ROOT "/README.md"));
}
