#pragma once

#include <string>
#include <string_view>

#include "cli/commands.h"

namespace aftercrop::cli {

/// A commented garden file to start from: `options.season` must be set.
[[nodiscard]] std::string starter_garden(const std::string& name, const NewOptions& options);

/// A text as a quoted YAML scalar.
[[nodiscard]] std::string quoted(const std::string& text);

/// Name under which the schema of garden files is written beside a new garden: its first line names
/// it, so that editors complete keys.
inline constexpr const char* kSchemaName = "garden.schema.json";
/// That schema (tools/schema/), as it is.
[[nodiscard]] std::string_view garden_schema();

}  // namespace aftercrop::cli
