#pragma once

#include <string>

namespace aftercrop::catalogue {

/// Low, typical and high of one figure.
struct Range {
  double low = 0.0;
  double typical = 0.0;
  double high = 0.0;
  friend bool operator==(const Range&, const Range&) = default;
};

/// Where a figure comes from. `grade` is one of "published", "common practice", "from memory",
/// "derived", "our choice".
struct Citation {
  std::string topic;  ///< which figures of the row it covers ("yield", "days", "all")
  std::string text;   ///< author, year, title, table
  std::string grade;
  friend bool operator==(const Citation&, const Citation&) = default;
};

}  // namespace aftercrop::catalogue
