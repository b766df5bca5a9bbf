#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace aftercrop::catalogue {

/// How a stand ends.
enum class Ending {
  HarvestedPulled,  ///< whole plants taken; most coarse roots leave
  HarvestedCut,     ///< tops taken, roots stay
  CutRootsLeft,     ///< cut down, tops lie as mulch, roots stay
  Incorporated,     ///< tops and roots mixed into the soil
  Mown,             ///< tops lie as mulch, roots stay
  Tarped,           ///< killed under a cover, tops lie as mulch, roots stay
  Winterkilled,     ///< killed by frost, tops lie as mulch
  Failed,           ///< lost: no credit
};

inline constexpr std::array<std::string_view, 8> kEndingNames = {
    "harvested-pulled", "harvested-cut", "cut-roots-left", "incorporated", "mown",
    "tarped",           "winterkilled",  "failed"};

[[nodiscard]] constexpr std::string_view name(Ending ending) {
  return kEndingNames[static_cast<std::size_t>(ending)];
}

[[nodiscard]] constexpr std::optional<Ending> parse_ending(std::string_view text) {
  for (std::size_t i = 0; i < kEndingNames.size(); ++i) {
    if (kEndingNames[i] == text) return static_cast<Ending>(i);
  }
  return {};
}

}  // namespace aftercrop::catalogue
