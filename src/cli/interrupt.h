#pragma once

namespace aftercrop::cli {

/// From here on the first Ctrl-C is only remembered; the second ends the program.
void catch_interrupt();

[[nodiscard]] bool interrupted();

}  // namespace aftercrop::cli
