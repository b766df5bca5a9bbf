#pragma once

#include <string_view>

// The files of this folder, put into the program by the build.
namespace aftercrop::emit {

/// The page's style sheet.
[[nodiscard]] std::string_view page_css();
/// Colours and patterns of pictures: also inside a picture that stands alone.
[[nodiscard]] std::string_view picture_css();
/// What the page does beyond showing a document: ticks, filters, the week at hand.
[[nodiscard]] std::string_view page_js();
/// Its picture, stretched and looked into; follows `page_js` in one script.
[[nodiscard]] std::string_view picture_js();

}  // namespace aftercrop::emit
