#pragma once

namespace aftercrop::cli {

/// Bytes of memory that the program holds now; 0 where the system does not say.
[[nodiscard]] double memory_held();

}  // namespace aftercrop::cli
