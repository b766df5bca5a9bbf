#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "load/catalogue_row.h"

namespace aftercrop::load {

/// The coefficients of a group by their keys.
template <class Group>
using CoefficientKeys = std::vector<std::pair<std::string_view, catalogue::Coefficient Group::*>>;

/// One coefficient of `table`, where it is given.
void read_coefficient(const RowFields& table, std::string_view key, catalogue::Coefficient& into,
                      CatalogueBuild& build);

/// The keys of a table of which a new catalogue must give all, a user's file any.
[[nodiscard]] RowFields open_table(const Node& node, std::string_view name,
                                   const std::vector<std::string_view>& keys,
                                   CatalogueBuild& build);

/// The group `name` of `fields`, where it is given.
template <class Group>
void read_group(const RowFields& fields, std::string_view name,
                const CoefficientKeys<Group>& members, Group& into, CatalogueBuild& build) {
  const Node* node = fields.get(name);
  if (node == nullptr) return;
  std::vector<std::string_view> keys;
  keys.reserve(members.size());
  for (const auto& [key, member] : members) keys.push_back(key);
  const RowFields table = open_table(*node, name, keys, build);
  for (const auto& [key, member] : members) read_coefficient(table, key, into.*member, build);
}

}  // namespace aftercrop::load
