#pragma once

#include <string>
#include <variant>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "terms.h"

namespace aftercrop::verifier {

/// A certificate as it was read: every number in it is a claim.
struct Claims {
  /// What a square metre's harvest of a crop earns in these weeks.
  struct SupplyPrice {
    std::string crop;
    calendar::WeekSpan weeks;
    double per_m2 = 0.0;
  };
  /// What a square metre that a rounding counts earns.
  struct RoundingPrice {
    std::size_t want = 0;  ///< place in the garden's wants
    std::string crop;
    double unit_m2 = 0.0;
    double per_m2 = 0.0;
  };
  struct WorkPrice {
    calendar::Week week;
    double per_hour = 0.0;
  };
  /// What a stand of the group pays if its break covers the season.
  struct Fee {
    std::string group;
    int season = 0;
    double fee = 0.0;
  };
  struct BedClass {
    std::vector<std::string> beds;
    std::vector<Fee> fees;
    double per_bed = 0.0;
  };

  std::string garden;
  Terms value;
  double total = 0.0;
  double bound = 0.0;
  std::vector<SupplyPrice> supply;
  std::vector<RoundingPrice> roundings;
  std::vector<WorkPrice> work;
  std::vector<BedClass> classes;
};

/// The claims of a certificate's text, or why it cannot be read.
[[nodiscard]] std::variant<Claims, std::string> read_claims(const std::string& text);

/// Class bounds and fees are whole multiples of 1/2^30.
[[nodiscard]] bool on_scale(double number);

}  // namespace aftercrop::verifier
