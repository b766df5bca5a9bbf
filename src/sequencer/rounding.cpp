#include "sequencer/rounding.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::sequencer {

constexpr double kUnitScale = 1024.0;  // units are whole multiples of its inverse

double Rounding::counted(double m2) const {
  const double whole = std::floor(m2 / unit);
  return whole * rest + std::min(std::max(0.0, m2 - whole * unit), rest);
}

Rounding rounding_of(const Objective& objective, std::size_t want, double unit) {
  const WantRow& row = objective.wants()[want];
  double open = row.amount_m2;
  for (const int supply : row.supplies) open -= objective.given()[static_cast<std::size_t>(supply)];
  if (open <= 0.0) return {want, unit, 0.0, 0.0, row.supplies};
  // A unit above what is wanted says the more the larger it is, up to the largest stand.
  if (unit > open) {
    const double above = std::max(open, objective.largest_bed_m2());
    unit = (std::floor(above * kUnitScale) + 1.0) / kUnitScale;
  }
  const double whole = std::floor(open / unit);
  const double rest = std::max(0.0, open - whole * unit);
  return {want, unit, rest, rest * (whole + 1.0), row.supplies};
}

double Rounding::portion(const Supply& supply) const {
  double m2 = 0.0;
  // Rows of one crop lie together: most stands have none of these.
  if (supply.empty() || supplies.empty() || supply.front().first > supplies.back()) return m2;
  if (supply.back().first < supplies.front()) return m2;
  for (const auto& [row, more] : supply) {
    if (std::binary_search(supplies.begin(), supplies.end(), row)) m2 += more;
  }
  return m2;
}

}  // namespace aftercrop::sequencer
