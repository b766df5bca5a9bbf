#include <cstdio>
#include <exception>

#include "cli/app.h"
#include "cli/exit_code.h"

namespace {

int report_bug(const char* what) {
  std::fprintf(stderr, "aftercrop: this is a mistake in aftercrop, not in your files: %s\n", what);
  return static_cast<int>(aftercrop::cli::ExitCode::Bug);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return static_cast<int>(aftercrop::cli::run(argc, argv));
  } catch (const std::exception& error) {
    return report_bug(error.what());
  } catch (...) {
    return report_bug("an error without a name");
  }
}
