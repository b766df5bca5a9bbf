#include "load/settings.h"

#include <fmt/format.h>

#include "load/measure.h"
#include "load/moments.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::RuleId;
using garden::Setting;

std::vector<std::string> rule_names() {
  std::vector<std::string> names;
  names.reserve(garden::kRuleCount);
  for (const garden::RuleCard& card : garden::kRuleCards) names.emplace_back(card.name);
  return names;
}

std::optional<RuleId> read_rule(const Node& node, Diagnostics& out) {
  const auto text = read_text(node, "a rule", out);
  if (!text) return {};
  const auto rule = garden::parse_rule(*text);
  if (!rule) report_unknown("unknown-rule", "a rule", node, rule_names(), out);
  return rule;
}

/// A key of a table as a node of its own, to report it like a value.
Node key_node(const Node& table, std::size_t place) {
  Node key;
  key.kind = Node::Kind::Scalar;
  key.text = table.keys[place];
  key.source = table.key_sources[place];
  return key;
}

void read_exception(const Node& node, const Lookup& lookup, garden::Policy& policy,
                    Diagnostics& out) {
  const Fields fields(node, "an accepted exception", {"bed", "rule", "until", "because"}, out);
  const Node* bed = fields.need("bed", out);
  const Node* rule = fields.need("rule", out);
  const Node* because = fields.need("because", out);
  if (!fields.is_table()) return;
  garden::Exception exception;
  exception.source = node.source;
  const auto id = rule != nullptr ? read_rule(*rule, out) : std::nullopt;
  if (const Node* until = fields.get("until")) exception.until = read_date(*until, "`until`", out);
  if (because != nullptr) exception.because = read_text(*because, "`because`", out).value_or("");
  if (bed == nullptr || lookup.beds(*bed, out).empty() || !id) return;
  exception.rule = *id;
  for (const Node* name : list_of(*bed)) {
    for (const std::string& one : expand_range(name->text)) {
      exception.bed = one;
      policy.exceptions.push_back(exception);
    }
  }
}

/// One key of `costs:`.
struct CostKey {
  std::string_view key;
  Dimension dimension;
  std::string_view readings;
  double garden::Costs::*price;
  double factor;
};

const std::vector<CostKey>& cost_keys() {
  using garden::Costs;
  static const std::vector<CostKey> keys = {
      {"want", Dimension::PricePerM2, "/m2, /ft2", &Costs::want_per_m2, 1.0},
      {"nitrogen", Dimension::PricePerKg, "/kg, /lb", &Costs::nitrogen_per_kg, 1.0},
      {"leached", Dimension::PricePerKg, "/kg, /lb", &Costs::leached_per_kg, 1.0},
      {"bare_week", Dimension::PricePerM2, "/m2, /ft2", &Costs::bare_week_per_m2, 1.0},
      {"warn", Dimension::Share, "%", &Costs::warn_share, 0.01},
      {"disease", Dimension::Share, "%", &Costs::disease_share, 0.01},
      {"work", Dimension::PricePerHour, "/h", &Costs::work_per_hour, 1.0},
      {"change", Dimension::Share, "%", &Costs::change_share, 0.01}};
  return keys;
}

std::optional<garden::WorkException> read_work_exception(const Node& node, Diagnostics& out) {
  const Fields fields(node, "an exception of the work", {"from", "to", "hours"}, out);
  const Node* from = fields.need("from", out);
  const Node* to = fields.need("to", out);
  const Node* hours = fields.need("hours", out);
  if (from == nullptr || to == nullptr || hours == nullptr) return {};
  const auto first = read_date(*from, "`from`", out);
  const auto past = read_date(*to, "`to`", out);
  const auto count = read_number(*hours, "hours", {0, 10000}, out);
  if (!first || !past || !count) return {};
  if (*past <= *first) {
    out.error("date-order", "the exception ends before it begins", to->source,
              "`to:` is the day after the last one");
    return {};
  }
  return garden::WorkException{{*first, *past}, *count};
}

}  // namespace

void read_rules(const Node& node, garden::Policy& policy, Diagnostics& out) {
  if (!node.is_map()) {
    out.error("wrong-shape", "rules must be a table of keys", node.source,
              "write `rules: {bare-winter: off}`");
    return;
  }
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    const auto rule = read_rule(key_node(node, i), out);
    const auto setting = read_choice<Setting>(node.items[i], "a setting of a rule",
                                              {{"off", Setting::Off},
                                               {"note", Setting::Note},
                                               {"warn", Setting::Warn},
                                               {"require", Setting::Require}},
                                              out);
    if (!rule || !setting) continue;
    if (*rule == RuleId::NitrogenSurplus && *setting == Setting::Require) {
      out.error("rule-setting", "nitrogen-surplus cannot be required", node.items[i].source,
                "a surplus has a price, it is never forbidden: write `warn`");
      continue;
    }
    policy.settings[static_cast<std::size_t>(*rule)] = *setting;
  }
}

void read_accept(const Node& node, const Lookup& lookup, garden::Policy& policy, Diagnostics& out) {
  for (const Node* item : read_list(node, "accept", out)) {
    read_exception(*item, lookup, policy, out);
  }
}

garden::Hands read_work(const Node& node, Diagnostics& out) {
  const Fields fields(node, "work", {"hours_per_week", "except"}, out);
  garden::Hands hands;
  const Node* hours = fields.need("hours_per_week", out);
  if (hours != nullptr) {
    hands.hours_per_week = read_number(*hours, "hours a week", {0, 10000}, out).value_or(0.0);
  }
  if (const Node* except = fields.get("except")) {
    for (const Node* item : read_list(*except, "`except`", out)) {
      if (const auto one = read_work_exception(*item, out)) hands.exceptions.push_back(*one);
    }
  }
  return hands;
}

garden::Costs read_costs(const Node& node, Diagnostics& out) {
  std::vector<std::string_view> keys;
  for (const CostKey& key : cost_keys()) keys.push_back(key.key);
  const Fields fields(node, "costs", keys, out);
  garden::Costs costs;
  for (const CostKey& key : cost_keys()) {
    const Node* price = fields.get(key.key);
    if (price == nullptr) continue;
    const Ask ask{key.key, {key.dimension}, key.readings, {0.0, 1.0e6}};
    if (const auto measure = read_measure(*price, ask, out)) {
      costs.*key.price = measure->value * key.factor;
    }
  }
  return costs;
}

}  // namespace aftercrop::load
