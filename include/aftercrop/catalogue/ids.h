#pragma once

#include <compare>
#include <cstddef>

namespace aftercrop::catalogue {

/// The place of a row in its table. Two tables' places do not mix.
template <class Row>
class Index {
 public:
  constexpr Index() = default;
  constexpr explicit Index(int place) : place_(place) {}
  constexpr explicit Index(std::size_t place) : place_(static_cast<int>(place)) {}
  [[nodiscard]] constexpr std::size_t place() const { return static_cast<std::size_t>(place_); }
  [[nodiscard]] constexpr bool known() const { return place_ >= 0; }
  friend constexpr auto operator<=>(Index, Index) = default;

 private:
  int place_ = -1;
};

using CropId = Index<struct Crop>;
using FamilyId = Index<struct Family>;
using BreakGroupId = Index<struct BreakGroup>;
using PathogenId = Index<struct Pathogen>;
using SoilId = Index<struct Soil>;
using AmendmentId = Index<struct Amendment>;
using ResidueId = Index<struct ResidueClass>;

}  // namespace aftercrop::catalogue
