#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::load {

/// The nearest of `known` within a third of the word's length in edits, or empty.
[[nodiscard]] std::optional<std::string> did_you_mean(std::string_view word,
                                                      const std::vector<std::string>& known);

/// A crop by id or by a name people use: capitals, blanks, plural, British or American. Exact ids
/// come first. A name with two readings takes the commonest with a note; it is an error only if
/// the readings differ in family or in food against cover. Errors: `unknown-crop`,
/// `ambiguous-crop`, with "did you mean".
[[nodiscard]] std::optional<catalogue::CropId> find_crop(std::string_view name,
                                                         const catalogue::Catalogue& catalogue,
                                                         const diagnostic::Source& source,
                                                         diagnostic::Diagnostics& out);

}  // namespace aftercrop::load
