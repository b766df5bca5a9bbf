#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace aftercrop::catalogue {

/// Why nitrogen moves, by the names that crops/ledger.yaml uses; in the order of nitrogen::Cause.
inline constexpr std::size_t kCauses = 24;
inline constexpr std::array<std::string_view, kCauses> kCauseKeys = {
    "opening",       "deposition",   "amendment",      "soil-supply",     "residue-release",
    "mulch-release", "ammonia",      "slow-release",   "tie-up",          "uptake",
    "soil-life",     "fixation",     "bought",         "gas-loss",        "leaching",
    "harvest",       "carried-off",  "residue-buried", "residue-mulched", "roots-left",
    "winter-loss",   "mulch-dug-in", "soil-test",      "ley-effect"};

/// What is said of a posting, and the published range as factors of its amount.
struct CauseText {
  std::string words;   ///< "soil organic matter mineralises"
  std::string source;  ///< author, year, table
  double low = 1.0;
  double high = 1.0;
};

}  // namespace aftercrop::catalogue
