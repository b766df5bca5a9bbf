#pragma once

namespace aftercrop::cli {

/// What the program returns to the shell.
enum class ExitCode {
  Fine = 0,
  Findings = 1,  ///< findings of severity error, or wants of which less than half can be met
  Unusable = 2,  ///< bad usage, unreadable input, or an output that cannot be written
  Bug = 3,       ///< a mistake of ours
};

}  // namespace aftercrop::cli
