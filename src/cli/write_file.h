#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace aftercrop::cli {

/// Writes a file whole or not at all: beside the target, then renamed over it. Links are followed,
/// the mode of an old file is kept; pipes and devices are written straight. Empty = done, else why
/// not.
[[nodiscard]] std::optional<std::string> write_whole(const std::string& path,
                                                     std::string_view text);

/// Why an output must not be replaced: it exists, and the program did not write it or somebody
/// edited it since. Empty = it may be written. `text` = what would be written, as far as known.
[[nodiscard]] std::optional<std::string> why_not_replace(const std::string& path,
                                                         std::string_view text);

/// Marks the text as ours and writes it, unless that would lose somebody's work.
[[nodiscard]] std::optional<std::string> write_output(const std::string& path,
                                                      std::string_view text, bool force);

/// True for a pipe, a terminal or another target that is not a file.
[[nodiscard]] bool is_stream(const std::string& path);

}  // namespace aftercrop::cli
