#pragma once

#include <string_view>

#include "aftercrop/catalogue/ending.h"

namespace aftercrop::emit {

/// How a stand ends, as people say it: "cut down as mulch, its roots stay".
[[nodiscard]] std::string_view ending_words(catalogue::Ending ending);

}  // namespace aftercrop::emit
