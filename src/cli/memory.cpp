#include "cli/memory.h"

#include <unistd.h>

#include <fstream>

namespace aftercrop::cli {

double memory_held() {
  std::ifstream in("/proc/self/statm");  // pages: all, those in memory, ...
  double all = 0.0;
  double here = 0.0;
  if (!(in >> all >> here)) return 0.0;
  return here * static_cast<double>(sysconf(_SC_PAGESIZE));
}

}  // namespace aftercrop::cli
