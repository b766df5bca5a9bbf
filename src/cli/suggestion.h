#pragma once

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

namespace aftercrop::cli {

/// What is wrong with the words of a command line, where an unknown command or option resembles a
/// known one; empty = nothing to say.
[[nodiscard]] std::optional<std::string> misspelt(const CLI::App& app,
                                                  const std::vector<std::string>& words);

}  // namespace aftercrop::cli
