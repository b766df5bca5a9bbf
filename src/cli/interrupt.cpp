#include "cli/interrupt.h"

#include <csignal>

namespace aftercrop::cli {
namespace {

volatile std::sig_atomic_t pressed = 0;

void remember(int /*signal*/) { pressed = 1; }

}  // namespace

void catch_interrupt() {
  struct sigaction action {};
  action.sa_handler = remember;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
}

bool interrupted() { return pressed != 0; }

}  // namespace aftercrop::cli
