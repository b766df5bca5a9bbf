#include "aftercrop/garden/garden.h"

namespace aftercrop::garden {

std::vector<BedId> Garden::find(std::string_view bed_name) const {
  std::vector<BedId> found;
  for (std::size_t i = 0; i < beds.size(); ++i) {
    if (beds[i].name == bed_name || beds[i].whole == bed_name) found.emplace_back(i);
  }
  return found;
}

}  // namespace aftercrop::garden
