#pragma once

#include <string>

namespace aftercrop::catalogue {

/// One coefficient with its published span.
struct Coefficient {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string unit;
  std::string source;
  operator double() const {
    return value;
  }  // NOLINT(google-explicit-constructor): read as a number
};

}  // namespace aftercrop::catalogue
