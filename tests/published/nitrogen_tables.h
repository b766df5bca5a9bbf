#pragma once

#include "support/check_table.h"

// The parts of the nitrogen table, by subject.
namespace aftercrop::published {

void check_units(support::CheckTable& table);          // N1 to N6
void check_soil(support::CheckTable& table);           // N7 to N10
void check_residues(support::CheckTable& table);       // N11 to N22
void check_legumes(support::CheckTable& table);        // N23 to N29
void check_crops(support::CheckTable& table);          // N30 to N39
void check_losses(support::CheckTable& table);         // N40 to N42
void check_amendments(support::CheckTable& table);     // N43 to N48
void check_whole_account(support::CheckTable& table);  // N49, N50

}  // namespace aftercrop::published
