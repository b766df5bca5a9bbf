#pragma once

#include <string>
#include <string_view>

namespace aftercrop::cli {

/// Where a written file says that it is ours, so that a file somebody edited is never lost.
enum class MarkForm {
  LastLine,  ///< "# written by aftercrop, checksum XXXXXXXX" at the end
  Calendar,  ///< an X- property behind PRODID
  Comment,   ///< the same as LastLine in <!-- -->, for pages and pictures
  Column,    ///< tables: a last column "checksum", filled in on the first row
};

/// By the ending of the file's name.
[[nodiscard]] MarkForm mark_form(std::string_view path);

/// The text with its mark.
[[nodiscard]] std::string marked(std::string_view text, MarkForm form);

/// True if `text` was written by `marked` and is still as it was.
[[nodiscard]] bool untouched(std::string_view text, MarkForm form);

}  // namespace aftercrop::cli
