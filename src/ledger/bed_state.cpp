#include "aftercrop/ledger/bed_state.h"

namespace aftercrop::ledger {

BedState::BedState() {
  crop_season.fill(kNeverSeason);
  cover_season.fill(kNeverSeason);
  return_season.fill(kNeverSeason);
}

}  // namespace aftercrop::ledger
