#pragma once

#include <span>
#include <string_view>

namespace aftercrop::load {

/// One file of crops/ as packed by the build (tools/embed).
struct EmbeddedFile {
  std::string_view name;  ///< "crops/solanaceae.yaml"
  std::span<const unsigned char> bytes;
};

/// All files of crops/, in order of name. Written by the build.
[[nodiscard]] std::span<const EmbeddedFile> embedded_files();

}  // namespace aftercrop::load
