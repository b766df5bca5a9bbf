#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace aftercrop::verifier {

/// What a plan is worth, by term, in the order in which certificates print them: what the harvest
/// is worth, then costs as positive numbers.
enum class Term { Wants, Nitrogen, Leached, Disease, BareWinter, Warnings, Work, Changes };
inline constexpr std::size_t kTerms = 8;
inline constexpr std::array<std::string_view, kTerms> kTermNames = {
    "wants", "nitrogen", "leached", "disease", "bare_winter", "warnings", "work", "changes"};

struct Terms {
  std::array<double, kTerms> of{};
  [[nodiscard]] double& operator[](Term term) { return of[static_cast<std::size_t>(term)]; }
  [[nodiscard]] double operator[](Term term) const { return of[static_cast<std::size_t>(term)]; }
  [[nodiscard]] double costs() const {
    double sum = 0.0;
    for (std::size_t i = 1; i < kTerms; ++i) sum += of[i];
    return sum;
  }
  [[nodiscard]] double total() const { return of[0] - costs(); }
};

}  // namespace aftercrop::verifier
