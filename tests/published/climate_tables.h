#pragma once

#include "support/check_table.h"

// The parts of the climate table, by subject.
namespace aftercrop::published {

void check_curves(support::CheckTable& table);     // C1 to C4
void check_sun(support::CheckTable& table);        // C5 to C7, C17 to C19, C28
void check_frost(support::CheckTable& table);      // C8 to C10, C29
void check_soil_heat(support::CheckTable& table);  // C11 to C14
void check_heat_sums(support::CheckTable& table);  // C15, C16, C20, C24 to C26, C30, C31
void check_water(support::CheckTable& table);      // C21 to C23
void check_weeks(support::CheckTable& table);      // C27
void check_seasons(support::CheckTable& table);    // C32, C33

}  // namespace aftercrop::published
