#pragma once

#include "aftercrop/rules/rule.h"

namespace aftercrop::rules {

// One line a rule; each has its own file of the same name.
[[nodiscard]] Rule never_free();
[[nodiscard]] Rule family_break();
[[nodiscard]] Rule prone_on_infected();
[[nodiscard]] Rule host_return();
[[nodiscard]] Rule sown_out_of_window();
[[nodiscard]] Rule frost_before_harvest();
[[nodiscard]] Rule plant_back();
[[nodiscard]] Rule immobilisation();
[[nodiscard]] Rule biofumigant_unready();
[[nodiscard]] Rule legume_before_heavy_feeder();
[[nodiscard]] Rule biofumigant_before_prone();
[[nodiscard]] Rule nitrogen_short();
[[nodiscard]] Rule roots_pulled();
[[nodiscard]] Rule cover_ended_late();
[[nodiscard]] Rule manure_before_harvest();

}  // namespace aftercrop::rules
