#pragma once

#include <string>
#include <vector>

#include "aftercrop/garden/planting.h"
#include "aftercrop/garden/policy.h"

namespace aftercrop::check {

/// One stand of a plan in place of another.
struct Change {
  /// The stand that gives way, of garden or plan; null where a stand is only added.
  const garden::Planting* gives_way = nullptr;
  garden::Planting instead;  ///< what stands there then
};

/// A small change of a plan that was tried with the same rules: with it the finding is gone, no
/// error comes in its stead and, unless `warns`, no more warnings than before.
struct WayOut {
  enum class Kind { Moved, OtherBed, Swapped, Ending, OtherEnd, Added };
  Kind kind = Kind::Moved;
  std::vector<Change> changes;  ///< one; two where stands change places
  std::string words;            ///< "start it on 2027-06-07"
  bool warns = false;           ///< of an error only: it is gone, but more warnings are told
};

/// A way out, and the finding that it is for.
struct Cure {
  garden::RuleId rule = garden::RuleId::FamilyBreak;
  garden::BedId bed;
  calendar::Week week;
  WayOut way;
};

}  // namespace aftercrop::check
