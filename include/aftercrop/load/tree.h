#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::load {

/// A parsed YAML text as plain values: what the readers walk. Built from parser events, so that
/// everything a garden must not contain (aliases, tags, duplicate keys, a second document, depth
/// over 32, over 200,000 values, text that is not UTF-8, control characters) is refused with its
/// place before any reader sees it.
struct Node {
  enum class Kind { Null, Scalar, Sequence, Map };
  Kind kind = Kind::Null;
  bool quoted = false;
  std::string text;  ///< scalars
  diagnostic::Source source;
  std::vector<Node> items;        ///< sequence items, or map values in order of the file
  std::vector<std::string> keys;  ///< maps: one a value
  std::vector<diagnostic::Source> key_sources;  ///< maps: one a value

  [[nodiscard]] bool is_scalar() const { return kind == Kind::Scalar; }
  [[nodiscard]] bool is_map() const { return kind == Kind::Map; }
  [[nodiscard]] bool is_sequence() const { return kind == Kind::Sequence; }
  [[nodiscard]] bool is_null() const { return kind == Kind::Null; }
  /// Value of a key, or nullptr.
  [[nodiscard]] const Node* find(std::string_view key) const;
};

/// Parses one text. Empty only if an error was reported. All errors have ids of the form
/// "yaml-...".
[[nodiscard]] std::unique_ptr<Node> parse_yaml(
    const std::shared_ptr<const diagnostic::SourceFile>& file,
    diagnostic::Diagnostics& diagnostics);

}  // namespace aftercrop::load
