#include "published/nitrogen_tables.h"
#include "support/embedded_garden.h"

// The worked checks N1 to N50 of the nitrogen ledger: its own functions and rows against cases that
// were published elsewhere. Misses are listed in README.md too.
using namespace aftercrop;

TEST_CASE("published: the nitrogen table") {
  support::CheckTable table("nitrogen");
  published::check_units(table);
  published::check_soil(table);
  published::check_residues(table);
  published::check_legumes(table);
  published::check_crops(table);
  published::check_losses(table);
  published::check_amendments(table);
  published::check_whole_account(table);
  table.finish('N', 50, support::file_text(AFTERCROP_ROOT "/README.md"));
}
