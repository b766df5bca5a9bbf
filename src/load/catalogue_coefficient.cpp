#include "load/catalogue_coefficient.h"

namespace aftercrop::load {
namespace {

constexpr Limits kAny{-1e6, 1e6};

}  // namespace

void read_coefficient(const RowFields& table, std::string_view key, catalogue::Coefficient& into,
                      CatalogueBuild& build) {
  const Node* node = table.get(key);
  if (node == nullptr) return;
  const RowFields row(*node, key, {"value", "low", "high", "unit", "source"}, build.out);
  row.need({"value"});
  row.number("value", into.value, kAny);
  if (!build.over_base) into.low = into.high = into.value;
  row.number("low", into.low, kAny);
  row.number("high", into.high, kAny);
  row.text("unit", into.unit);
  row.text("source", into.source);
  check_order(into.low, into.high, key, node->source, build.out);
}

RowFields open_table(const Node& node, std::string_view name,
                     const std::vector<std::string_view>& keys, CatalogueBuild& build) {
  RowFields table(node, name, keys, build.out);
  if (!build.over_base) table.need(keys);
  return table;
}

}  // namespace aftercrop::load
