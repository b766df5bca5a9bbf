#pragma once

#include <fstream>
#include <iterator>
#include <string>

#include "support/emitted.h"

// The garden of tests/emit/every_kind: every kind of task, and names that mean something to the
// forms they are written in.
namespace aftercrop::support {

inline std::string every_kind_file(const std::string& name) {
  std::ifstream in(std::string(AFTERCROP_ROOT) + "/tests/emit/every_kind/" + name,
                   std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Filled once; empty beds where the files cannot be read.
inline const Emitted& every_kind() {
  static const Emitted* const one = [] {
    auto* made = new Emitted;
    diagnostic::Diagnostics said;
    fill(*made, every_kind_file("garden.yaml"), every_kind_file("plan.yaml"), said,
         {{"lot/crops.yaml", every_kind_file("crops.yaml")}});
    return made;
  }();
  return *one;
}

}  // namespace aftercrop::support
