#pragma once

#include <string>

#include "cli/commands.h"

namespace aftercrop::cli {

/// A commented garden file to start from: `options.season` must be set.
[[nodiscard]] std::string starter_garden(const std::string& name, const NewOptions& options);

/// A text as a quoted YAML scalar.
[[nodiscard]] std::string quoted(const std::string& text);

}  // namespace aftercrop::cli
