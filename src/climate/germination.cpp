#include "aftercrop/climate/germination.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <tuple>

namespace aftercrop::climate {
namespace {

using catalogue::Emergence;
using catalogue::EmergenceRow;

constexpr std::size_t kNodes = std::tuple_size_v<decltype(EmergenceRow::days)>;
constexpr double kNodeStep = 5.0;  // C

// Below the lowest tested node nothing comes; above the highest the last rate holds.
double node_rate(const EmergenceRow& row, std::size_t node) {
  std::size_t at = std::min(node, kNodes - 1);
  while (at > 0 && row.days[at] < 0.0) --at;
  return row.days[at] <= 0.0 ? 0.0 : 1.0 / row.days[at];
}

const EmergenceRow* row_of(std::string_view crop, const Emergence& rows) {
  for (const EmergenceRow& row : rows.rows) {
    if (crop == row.crop) return &row;
    if (crop.size() > row.crop.size() && crop.compare(0, row.crop.size(), row.crop) == 0 &&
        crop[row.crop.size()] == '-') {
      return &row;  // lettuce-head, onion-bulb, pea-shell
    }
  }
  return nullptr;
}

}  // namespace

std::optional<double> emergence_rate(std::string_view crop, double soil_c, const Emergence& rows) {
  const EmergenceRow* row = row_of(crop, rows);
  if (row == nullptr) return std::nullopt;
  if (soil_c <= 0.0) return node_rate(*row, 0);
  const double place = std::min(soil_c / kNodeStep, static_cast<double>(kNodes - 1));
  const auto below = static_cast<std::size_t>(place);
  const double share = place - std::floor(place);
  return (1.0 - share) * node_rate(*row, below) + share * node_rate(*row, below + 1);
}

std::optional<double> emergence_days(std::string_view crop, double soil_c, const Emergence& rows) {
  const auto rate = emergence_rate(crop, soil_c, rows);
  if (!rate || *rate <= 0.0) return std::nullopt;
  return 1.0 / *rate;
}

}  // namespace aftercrop::climate
