#pragma once

#include <string>

#include "aftercrop/diagnostic/diagnostic.h"

namespace aftercrop::diagnostic {

struct RenderStyle {
  bool color = false;
  int width = 80;  ///< columns; long help is folded, source lines are cut around the caret
  /// Fold long headlines too: for people. A headline of one line is for programs that read it.
  bool folds_headlines = false;
};

/// file:line:column, message, source line with a caret, related places, help, sources.
[[nodiscard]] std::string render_full(const Diagnostic& diagnostic, const RenderStyle& style);

/// One line: `file:line:column: severity[id] message`.
[[nodiscard]] std::string render_concise(const Diagnostic& diagnostic);

/// Makes text safe for a terminal: control characters become visible, bytes that are not UTF-8
/// become U+FFFD.
[[nodiscard]] std::string printable(std::string_view text);

}  // namespace aftercrop::diagnostic
