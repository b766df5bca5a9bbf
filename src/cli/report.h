#pragma once

#include <cstdio>
#include <string>

#include "aftercrop/diagnostic/diagnostic.h"
#include "cli/commands.h"

namespace aftercrop::cli {

/// Prints findings, errors first, then warnings, then notes; in each bed by bed. Of one cause the
/// first is shown whole, the next by their places, the rest by their number. `--quiet` leaves
/// errors only.
void print_findings(std::FILE* stream, const diagnostic::Diagnostics& findings,
                    const Shared& shared);

/// "2 errors, 1 warning, 5 notes"; "no findings" where there is none.
[[nodiscard]] std::string count_text(const diagnostic::Diagnostics& findings);

/// The same with what they are, most first: "71 warnings: family-break 40, bare-winter 31".
[[nodiscard]] std::string cause_text(const diagnostic::Diagnostics& findings);

/// "1 bed", "3 beds".
[[nodiscard]] std::string counted(int number, const char* thing);

}  // namespace aftercrop::cli
