#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// One table of a file with the keys it may hold. Unknown keys (`unknown-key`), keys without a
/// value (`missing-value`) and what is no table at all (`wrong-shape`) are reported at once.
class Fields {
 public:
  Fields(const Node& node, std::string_view what, std::vector<std::string_view> keys,
         diagnostic::Diagnostics& out);

  [[nodiscard]] bool is_table() const { return node_->is_map(); }
  [[nodiscard]] const diagnostic::Source& source() const { return node_->source; }
  /// Value of a key; nullptr where the key is absent or has no value.
  [[nodiscard]] const Node* get(std::string_view key) const;
  /// As `get`, and reports `missing-key` where the key is absent, with an example of its value.
  [[nodiscard]] const Node* need(std::string_view key, diagnostic::Diagnostics& out,
                                 std::string_view example = "...") const;

 private:
  const Node* node_;
  std::string what_;
};

/// Smallest and largest value that makes sense, both allowed.
struct Limits {
  double low;
  double high;
};

/// Text of a scalar; `wrong-shape` for a list or table.
[[nodiscard]] std::optional<std::string> read_text(const Node& node, std::string_view what,
                                                   diagnostic::Diagnostics& out);

/// The items of a list; one value alone counts as a list of one.
[[nodiscard]] std::vector<const Node*> list_of(const Node& node);

/// Items of a node that must be a list; `wrong-shape` otherwise.
[[nodiscard]] std::vector<const Node*> read_list(const Node& node, std::string_view what,
                                                 diagnostic::Diagnostics& out);

/// A whole text as a number: digits, point, sign; no words such as nan.
[[nodiscard]] std::optional<double> plain_number(std::string_view text);
/// A whole text as digits only, up to 9 of them.
[[nodiscard]] std::optional<int> plain_whole(std::string_view text);

/// A number without a unit. Errors: `not-a-number`, `out-of-range`.
[[nodiscard]] std::optional<double> read_number(const Node& node, std::string_view what,
                                                Limits limits, diagnostic::Diagnostics& out);
[[nodiscard]] std::optional<int> read_whole(const Node& node, std::string_view what, Limits limits,
                                            diagnostic::Diagnostics& out);

/// yes, no, true, false, on, off. Error: `not-yes-or-no`.
[[nodiscard]] std::optional<bool> read_yes_no(const Node& node, std::string_view what,
                                              diagnostic::Diagnostics& out);

/// False, with `out-of-range`, outside the limits.
[[nodiscard]] bool check_range(double value, std::string_view unit, Limits limits,
                               std::string_view what, const diagnostic::Source& source,
                               diagnostic::Diagnostics& out);

/// Reports a word that is none of `known`: `id`, with the nearest one or the whole list.
void report_unknown(std::string id, std::string_view what, const Node& node,
                    const std::vector<std::string>& known, diagnostic::Diagnostics& out);

/// One of a few words. Error: `unknown-word`.
template <class Value>
[[nodiscard]] std::optional<Value> read_choice(
    const Node& node, std::string_view what,
    const std::vector<std::pair<std::string_view, Value>>& choices, diagnostic::Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  std::vector<std::string> known;
  for (const auto& [word, value] : choices) {
    if (word == *text) return value;
    known.emplace_back(word);
  }
  report_unknown("unknown-word", what, node, known, out);
  return {};
}

}  // namespace aftercrop::load
