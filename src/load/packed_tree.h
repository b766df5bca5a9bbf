#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>

#include "aftercrop/load/tree.h"

namespace aftercrop::load {

/// A tree as bytes: what the build puts into the program instead of a YAML text, so that no text
/// is parsed at start-up. Per node: kind, place (line, column, length), then a text, or a count
/// and the children, keys with their places before each value of a map. Numbers are in groups of
/// 7 bits, lowest first.
[[nodiscard]] std::string pack(const Node& node);

/// The tree that `pack` was given. `bytes` must come from `pack`.
[[nodiscard]] Node unpack(std::span<const unsigned char> bytes,
                          const std::shared_ptr<const diagnostic::SourceFile>& file);

}  // namespace aftercrop::load
