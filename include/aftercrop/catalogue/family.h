#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/ids.h"
#include "aftercrop/catalogue/range.h"

namespace aftercrop::catalogue {

/// Full growing seasons without a group between two of its stands in one bed.
struct Break {
  int min = 0;  ///< below it: refused by default
  int rec = 0;  ///< below it: warned of
  friend bool operator==(const Break&, const Break&) = default;
};

/// A botanical family, or the part of one that shares a break (pulses: pea group, bean group).
struct BreakGroup {
  std::string id;     ///< "solanaceae", "fabaceae-pea"
  std::string label;  ///< as a grower says it: "nightshades"
  FamilyId family;
  Break crop;   ///< crop after crop
  Break cover;  ///< where either of the two is a cover crop
  /// If this pathogen was ever seen in the garden, covers bind with `crop.min` too (clubroot).
  std::string cover_binds_if_seen;
  std::string range_seen;  ///< what sources say, for printing ("2..5")
  std::vector<Citation> sources;
};

/// A break between two different groups (peas and beans).
struct CrossBreak {
  BreakGroupId a;
  BreakGroupId b;
  Break crop;
};

struct Family {
  std::string id;                 ///< botanical name in lower case
  std::string name;               ///< "Solanaceae"
  std::string trade_name;         ///< "nightshades"
  std::vector<std::string> also;  ///< older names that are accepted
};

}  // namespace aftercrop::catalogue
