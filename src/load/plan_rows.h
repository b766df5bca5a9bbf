#pragma once

#include <optional>
#include <vector>

#include "aftercrop/garden/planting.h"
#include "load/history.h"

namespace aftercrop::load {

/// The rows of a plan file that has been parsed: its `plantings:` and its `rotation:`. Empty only
/// if an error was reported.
[[nodiscard]] std::optional<garden::Plan> read_plan(const Node& root, const RecordContext& context,
                                                    diagnostic::Diagnostics& out);

/// Reads and parses one file. Errors: `file-unreadable` and those of `parse_yaml`.
[[nodiscard]] std::unique_ptr<Node> read_file(const std::string& path, const ReadText& read,
                                              const diagnostic::Source& asked_for,
                                              diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
