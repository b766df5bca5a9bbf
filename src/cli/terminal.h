#pragma once

#include <cstdio>
#include <string>
#include <string_view>

#include "aftercrop/diagnostic/render.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// Columns of the terminal: what it says, else COLUMNS, else 80.
[[nodiscard]] int terminal_width();

/// Columns for text that begins in column `from`: what the terminal leaves, 30 at least.
[[nodiscard]] int room_from(int from);

/// A head, and its text folded beside it from column `from` on; each line ends with a line break.
[[nodiscard]] std::string beside(std::string_view head, std::string_view text, int from);

/// True where a line may be drawn over: a terminal that is not "dumb".
[[nodiscard]] bool can_redraw(std::FILE* stream);

/// Colour and width for text on a stream; headlines are folded on terminals only. `auto` colours
/// terminals only, and not where NO_COLOR is set or TERM is "dumb".
[[nodiscard]] diagnostic::RenderStyle style_for(std::FILE* stream, ColorChoice choice);

/// Writes the bytes as they are.
void print(std::FILE* stream, std::string_view text);

/// A complaint about usage or files, on standard error: "aftercrop: " and the text.
void complain(std::string_view text);

}  // namespace aftercrop::cli
