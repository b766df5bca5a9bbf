#include "load/assumed.h"

#include <fmt/format.h>

#include <algorithm>

namespace aftercrop::load {

void Assumed::add(const std::string& phrase) {
  if (std::find(phrases_.begin(), phrases_.end(), phrase) == phrases_.end()) {
    phrases_.push_back(phrase);
  }
}

void Assumed::add_filled(const diagnostic::Source& source, const std::string& example) {
  if (filled_++ > 0) return;
  first_filled_ = source;
  example_ = example;
}

void Assumed::tell(const diagnostic::Source& garden, diagnostic::Diagnostics& out) const {
  if (!phrases_.empty()) {
    out.note("assumed", fmt::format("assumed: {}", fmt::join(phrases_, ", ")), garden,
             "say otherwise in the file where it is not so");
  }
  if (filled_ > 0) {
    const std::string stands =
        filled_ == 1 ? std::string("a stand has") : fmt::format("{} stands have", filled_);
    out.note("dates-filled",
             fmt::format("{} dates left out; they are filled in from catalogue and climate: {}",
                         stands, example_),
             first_filled_, "write `from:` and `to:` where it was different");
  }
}

}  // namespace aftercrop::load
