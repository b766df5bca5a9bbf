#include "load/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "aftercrop/load/names.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;

constexpr std::size_t kMostListed = 16;
constexpr double kLeastSaid = 1.0e-3;
constexpr double kMostSaid = 1.0e6;

std::string_view shape(const Node& node) {
  switch (node.kind) {
    case Node::Kind::Null:
      return "nothing";
    case Node::Kind::Scalar:
      return "one value";
    case Node::Kind::Sequence:
      return "a list";
    case Node::Kind::Map:
      break;
  }
  return "a table of keys";
}

/// "0.2 to 1000"; ends that only keep slips of the pen out are not worth their digits.
std::string span_of(Limits limits) {
  if (limits.low <= 0.0 || limits.low >= kLeastSaid) {
    return fmt::format("{:g} to {:g}", limits.low, limits.high);
  }
  if (limits.high >= kMostSaid) return "anything above 0";
  return fmt::format("above 0, up to {:g}", limits.high);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    if (!text.empty()) text += ", ";
    text += word;
  }
  return text;
}

}  // namespace

Fields::Fields(const Node& node, std::string_view what, std::vector<std::string_view> keys,
               Diagnostics& out)
    : node_(&node), what_(what) {
  if (!node.is_map()) {
    out.error("wrong-shape",
              fmt::format("{} must be a table of keys, and is {}", what, shape(node)), node.source,
              fmt::format("it may hold: {}", fmt::join(keys, ", ")));
    return;
  }
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    const std::string& key = node.keys[i];
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) {
      const std::vector<std::string> known(keys.begin(), keys.end());
      const auto near = did_you_mean(key, known);
      out.error("unknown-key", fmt::format("\"{}\" is not a key of {}", key, what),
                node.key_sources[i],
                near ? fmt::format("did you mean \"{}\"?", *near)
                     : fmt::format("it may hold: {}", joined(known)));
    } else if (node.items[i].is_null()) {
      out.error("missing-value", fmt::format("\"{}\" has no value", key), node.key_sources[i],
                "write a value after the colon, or remove the key");
    }
  }
}

const Node* Fields::get(std::string_view key) const {
  const Node* value = node_->find(key);
  return value != nullptr && !value->is_null() ? value : nullptr;
}

const Node* Fields::need(std::string_view key, Diagnostics& out, std::string_view example) const {
  if (is_table() && node_->find(key) == nullptr) {
    out.error("missing-key", fmt::format("{} needs \"{}\"", what_, key), node_->source,
              fmt::format("add `{}: {}`", key, example));
  }
  return get(key);
}

std::optional<std::string> read_text(const Node& node, std::string_view what, Diagnostics& out) {
  if (node.is_scalar() && !node.text.empty()) return node.text;
  const std::string_view found = node.is_scalar() ? std::string_view("empty") : shape(node);
  out.error("wrong-shape", fmt::format("{} must be a text, and is {}", what, found), node.source,
            "write one value");
  return {};
}

std::vector<const Node*> list_of(const Node& node) {
  std::vector<const Node*> items;
  if (!node.is_sequence()) {
    items.push_back(&node);
    return items;
  }
  for (const Node& item : node.items) items.push_back(&item);
  return items;
}

std::vector<const Node*> read_list(const Node& node, std::string_view what, Diagnostics& out) {
  if (node.is_sequence()) return list_of(node);
  out.error("wrong-shape", fmt::format("{} must be a list, and is {}", what, shape(node)),
            node.source, "write `- ` before each entry, or put them in [ ]");
  return {};
}

std::optional<double> plain_number(std::string_view text) {
  const std::size_t digits = text.starts_with('-') ? 1 : 0;
  if (text.size() <= digits) return {};
  const char first = text[digits];
  if ((first < '0' || first > '9') && first != '.') return {};
  double value = 0.0;
  const char* end = text.data() + text.size();
  const auto [stop, problem] = std::from_chars(text.data(), end, value);
  if (problem != std::errc() || stop != end || !std::isfinite(value)) return {};
  return value;
}

std::optional<int> plain_whole(std::string_view text) {
  if (text.empty() || text.size() > 9) return {};
  int value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, problem] = std::from_chars(text.data(), end, value);
  if (problem != std::errc() || stop != end || text.front() == '-') return {};
  return value;
}

bool check_range(double value, std::string_view unit, Limits limits, std::string_view what,
                 const diagnostic::Source& source, Diagnostics& out) {
  if (value >= limits.low && value <= limits.high) return true;
  const std::string tail = unit.empty() ? std::string() : fmt::format(" {}", unit);
  out.error("out-of-range", fmt::format("{} is {:g}{}", what, value, tail), source,
            fmt::format("it can be {}{}", span_of(limits), tail))
      .measure =
      diagnostic::Measure{value, value < limits.low ? limits.low : limits.high, std::string(unit)};
  return false;
}

std::optional<double> read_number(const Node& node, std::string_view what, Limits limits,
                                  Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  const auto value = plain_number(*text);
  if (!value) {
    out.error("not-a-number", fmt::format("{} must be a number, and is \"{}\"", what, *text),
              node.source, fmt::format("write a number of {:g} to {:g}", limits.low, limits.high));
    return {};
  }
  if (!check_range(*value, "", limits, what, node.source, out)) return {};
  return value;
}

std::optional<int> read_whole(const Node& node, std::string_view what, Limits limits,
                              Diagnostics& out) {
  const auto value = read_number(node, what, limits, out);
  if (!value) return {};
  if (std::floor(*value) != *value) {
    out.error("not-a-number", fmt::format("{} must be a whole number", what), node.source,
              fmt::format("write a whole number of {:g} to {:g}", limits.low, limits.high));
    return {};
  }
  return static_cast<int>(*value);
}

std::optional<bool> read_yes_no(const Node& node, std::string_view what, Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  if (*text == "yes" || *text == "true" || *text == "on") return true;
  if (*text == "no" || *text == "false" || *text == "off") return false;
  out.error("not-yes-or-no", fmt::format("{} is \"{}\"", what, *text), node.source,
            "write yes or no");
  return {};
}

void report_unknown(std::string id, std::string_view what, const Node& node,
                    const std::vector<std::string>& known, Diagnostics& out) {
  const auto near = did_you_mean(node.text, known);
  std::string help = near ? fmt::format("did you mean \"{}\"?", *near) : std::string();
  if (!near && !known.empty()) {
    help = known.size() <= kMostListed
               ? fmt::format("one of: {}", joined(known))
               : fmt::format("for example: {}", joined({known.begin(), known.begin() + 3}));
  }
  out.error(std::move(id), fmt::format("\"{}\" is not {}", node.text, what), node.source,
            std::move(help));
}

}  // namespace aftercrop::load
