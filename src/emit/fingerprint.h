#pragma once

#include <cstdint>
#include <string_view>

namespace aftercrop::emit {

/// FNV-1a, 64 bits: the same on every machine.
[[nodiscard]] constexpr std::uint64_t fingerprint(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  return hash;
}

}  // namespace aftercrop::emit
