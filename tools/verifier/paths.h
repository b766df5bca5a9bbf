#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "relaxation.h"

namespace aftercrop::verifier {

/// What following all paths of a class brought to light.
struct Followed {
  bool finished = false;            ///< every path was followed, or can earn no more than claimed
  std::optional<double> above;      ///< what a whole path earns that earns more than claimed
  std::vector<std::string> stands;  ///< that path
  std::optional<double> best;       ///< the most that a whole path was seen to earn
  long beginnings = 0;              ///< beginnings of paths lived through
};

/// Follows every path of the class that may still earn more than `claimed`, through the true state
/// of its bed, with nothing left out for room. Stops at the first whole one that earns more.
[[nodiscard]] Followed follow_paths(const Ground& ground, const Relaxation& relaxation,
                                    double claimed, const std::function<bool()>& out_of_time);

/// Allowed difference of sums that were added up in another order.
[[nodiscard]] double slack(double value);

}  // namespace aftercrop::verifier
