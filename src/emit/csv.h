#pragma once

#include <string>
#include <vector>

// Lines of RFC 4180 tables.
namespace aftercrop::emit {

/// One line, CRLF at its end. Cells hold no control characters; an apostrophe keeps a spreadsheet
/// from reading a formula.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& cells);

}  // namespace aftercrop::emit
