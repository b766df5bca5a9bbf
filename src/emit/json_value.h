#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/range.h"
#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::emit {

using Json = nlohmann::ordered_json;

/// Valid UTF-8; what is not becomes U+FFFD.
[[nodiscard]] Json text_value(std::string_view text);
/// Null where the text is empty.
[[nodiscard]] Json text_or_null(std::string_view text);
/// Null where the number is not finite.
[[nodiscard]] Json number(double value);
[[nodiscard]] Json sources(const std::vector<catalogue::Citation>& citations);
/// How many findings there are of each severity.
[[nodiscard]] Json counts(const diagnostic::Diagnostics& findings);
[[nodiscard]] std::string document(const Json& json);

}  // namespace aftercrop::emit
