#pragma once

#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::load {

/// What a reader took for granted, gathered so that it is said once.
class Assumed {
 public:
  /// Remembers a phrase ("loam") once, with the order of first use.
  void add(const std::string& phrase);
  /// Remembers a stand whose missing dates were filled in; only the count and the first are told.
  void add_filled(const diagnostic::Source& source, const std::string& example);
  /// Notes: `assumed`, `dates-filled`.
  void tell(const diagnostic::Source& garden, diagnostic::Diagnostics& out) const;

 private:
  std::vector<std::string> phrases_;
  int filled_ = 0;
  diagnostic::Source first_filled_;
  std::string example_;
};

}  // namespace aftercrop::load
