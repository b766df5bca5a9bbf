#include "emit/ending_words.h"

#include <array>

namespace aftercrop::emit {

std::string_view ending_words(catalogue::Ending ending) {
  static constexpr std::array<std::string_view, 8> kWords = {"lifted with its roots",
                                                             "cut off, its roots stay",
                                                             "cut down as mulch, its roots stay",
                                                             "chopped and dug in",
                                                             "mown as mulch",
                                                             "killed under a tarp",
                                                             "killed by frost, lies as mulch",
                                                             "lost"};
  return kWords[static_cast<std::size_t>(ending)];
}

}  // namespace aftercrop::emit
