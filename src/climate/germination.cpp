#include "aftercrop/climate/germination.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace aftercrop::climate {
namespace {

constexpr std::size_t kNodes = 9;  // 0, 5 .. 40 C
constexpr int kNot = 0;            // tested, does not come
constexpr int kUntested = -1;

struct EmergenceRow {
  std::string_view crop;
  std::array<int, kNodes> days;
};

// Harrington and Minges 1954 as reprinted; rows of crops that share one are listed by the first.
constexpr std::array<EmergenceRow, 21> kRows = {{
    // clang-format off
    {"asparagus",  {kNot, kNot, 53, 24, 15, 10, 12, 20, 28}},
    {"bush-bean",  {kNot, kNot, kNot, 16, 11, 8, 6, 6, kNot}},
    {"lima-bean",  {kUntested, kUntested, kNot, 31, 18, 7, 7, kNot, kUntested}},
    {"beet",       {kUntested, 42, 17, 10, 6, 5, 5, 5, kUntested}},
    {"cabbage",    {kUntested, 36, 15, 9, 6, 5, 4, kUntested, kUntested}},
    {"carrot",     {kNot, 51, 17, 10, 7, 6, 6, 9, kNot}},
    {"cauliflower", {kUntested, kUntested, 20, 10, 6, 5, 5, kUntested, kUntested}},
    {"celery",     {kNot, 41, 16, 12, 7, kNot, kNot, kNot, kUntested}},
    {"sweet-corn", {kNot, kNot, 22, 12, 7, 4, 4, 3, kNot}},
    {"cucumber",   {kNot, kNot, kNot, 13, 6, 4, 3, 3, kUntested}},
    {"lettuce",    {49, 15, 7, 4, 3, 2, 3, kNot, kNot}},
    {"okra",       {kNot, kNot, kNot, 27, 17, 13, 7, 6, 7}},
    {"onion",      {136, 31, 13, 7, 5, 4, 4, 13, kNot}},
    {"parsley",    {kUntested, kUntested, 29, 17, 14, 13, 12, kUntested, kUntested}},
    {"parsnip",    {172, 57, 27, 19, 14, 15, 32, kNot, kNot}},
    {"pea",        {kUntested, 36, 14, 9, 8, 6, 6, kUntested, kUntested}},
    {"pepper",     {kNot, kNot, kNot, 25, 13, 8, 8, 9, kNot}},
    {"radish",     {kNot, 29, 11, 6, 4, 4, 3, kUntested, kUntested}},
    {"spinach",    {63, 23, 12, 7, 6, 5, 6, kNot, kNot}},
    {"tomato",     {kNot, kNot, 43, 14, 8, 6, 6, 9, kNot}},
    {"turnip",     {kNot, kNot, 5, 3, 2, 1, 1, 1, 3}},
    // clang-format on
}};

// Below the lowest tested node nothing comes; above the highest the last rate holds.
double node_rate(const EmergenceRow& row, std::size_t node) {
  std::size_t at = std::min(node, kNodes - 1);
  if (row.days[at] == kUntested) {
    while (at > 0 && row.days[at] == kUntested) --at;
    if (row.days[at] == kUntested) return 0.0;
  }
  return row.days[at] <= 0 ? 0.0 : 1.0 / row.days[at];
}

const EmergenceRow* row_of(std::string_view crop) {
  for (const EmergenceRow& row : kRows) {
    if (crop == row.crop) return &row;
    if (crop.size() > row.crop.size() && crop.compare(0, row.crop.size(), row.crop) == 0 &&
        crop[row.crop.size()] == '-') {
      return &row;  // lettuce-head, onion-bulb, pea-shell
    }
  }
  return nullptr;
}

}  // namespace

std::optional<double> emergence_rate(std::string_view crop, double soil_c) {
  const EmergenceRow* row = row_of(crop);
  if (row == nullptr) return std::nullopt;
  if (soil_c <= 0.0) return node_rate(*row, 0);
  const double place = std::min(soil_c / 5.0, static_cast<double>(kNodes - 1));
  const auto below = static_cast<std::size_t>(place);
  const double share = place - std::floor(place);
  return (1.0 - share) * node_rate(*row, below) + share * node_rate(*row, below + 1);
}

std::optional<double> emergence_days(std::string_view crop, double soil_c) {
  const auto rate = emergence_rate(crop, soil_c);
  if (!rate || *rate <= 0.0) return std::nullopt;
  return 1.0 / *rate;
}

}  // namespace aftercrop::climate
