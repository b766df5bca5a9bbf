#pragma once

#include "cli/exit_code.h"

namespace aftercrop::cli {

/// Reads the command line and runs the command that it names.
[[nodiscard]] ExitCode run(int argc, char** argv);

}  // namespace aftercrop::cli
