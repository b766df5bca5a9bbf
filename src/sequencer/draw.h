#pragma once

#include <cstddef>
#include <cstdint>

namespace aftercrop::sequencer {

/// Numbers that look random and are always the same (Knuth's MMIX generator).
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed) {}
  /// At least 0, below `past`.
  [[nodiscard]] std::size_t below(std::size_t past) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::size_t>((state_ >> 33U) % past);
  }
  /// At least 0, below 1.
  [[nodiscard]] double unit() {
    constexpr std::size_t kGrain = 1U << 20U;
    return static_cast<double>(below(kGrain)) / static_cast<double>(kGrain);
  }

 private:
  std::uint64_t state_;
};

}  // namespace aftercrop::sequencer
