#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "sequencer/pricing.h"

namespace aftercrop::sequencer {

/// A path for every bed, with its exact value. One entry a bed of the garden.
struct Assignment {
  std::vector<std::size_t> bed_class;
  std::vector<Path> paths;
  double value = 0.0;
};

/// Worth and costs of an assignment, work included.
[[nodiscard]] Value value_of(const Assignment& assignment, const Objective& objective);

/// One round of repair: bed by bed the path is taken out and the best one for what is then still
/// wanted put in its place, kept only if the whole is worth more. True if anything got better.
bool repair(Assignment& assignment, Pricing& pricing, const Objective& objective, int width,
            const std::function<bool()>& enough);

/// Takes the paths of a few beds out at once and puts the best ones back one after the other, each
/// for what is then still wanted; kept only if the whole is worth more.
bool rebuild(Assignment& assignment, const std::vector<std::size_t>& beds, Pricing& pricing,
             const Objective& objective, int width);

}  // namespace aftercrop::sequencer
