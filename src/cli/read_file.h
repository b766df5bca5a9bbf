#pragma once

#include <string>

#include "aftercrop/load/load.h"

namespace aftercrop::cli {

/// The whole of a file, or why it cannot be had. Files over 64 MB are refused.
[[nodiscard]] load::TextOrReason read_file(const std::string& path);

}  // namespace aftercrop::cli
