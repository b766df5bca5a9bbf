#pragma once

#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::emit {

/// How each family looks that a set of stands holds: a colour and a pattern of its own, told in
/// style classes ("f3"). The commonest families come first, so that they share no colour. Colours
/// are the nine of Tol's "light" scheme, made to carry black labels and to be told apart by
/// colour-blind eyes (Tol 2021, SRON/EPS/TN/09-002 issue 3.2).
class FamilyStyles {
 public:
  /// Families of `past` alone come last, so that forms with and without it look alike.
  FamilyStyles(const catalogue::Catalogue& catalogue,
               const std::vector<const garden::Planting*>& plantings,
               const std::vector<garden::Planting>& past = {});

  /// "f3"; "f0" for a family that is not among the plantings.
  [[nodiscard]] std::string style_class(catalogue::CropId crop) const;
  /// The patterns, for `<defs>` of a picture: `p1` and so on.
  [[nodiscard]] std::string patterns() const;
  /// The style rules that join classes and patterns.
  [[nodiscard]] std::string rules() const;
  /// Families in the order of their classes (1, 2, ...), each once.
  [[nodiscard]] const std::vector<catalogue::FamilyId>& families() const { return families_; }
  /// "nightshades", or the botanical name where the trade has none.
  [[nodiscard]] std::string name(catalogue::FamilyId family) const;

 private:
  const catalogue::Catalogue* catalogue_;
  std::vector<catalogue::FamilyId> families_;
};

}  // namespace aftercrop::emit
