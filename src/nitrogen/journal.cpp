#include "aftercrop/nitrogen/journal.h"

namespace aftercrop::nitrogen {

const CauseText& describe(Cause cause) {
  // Ranges are factors on the amount: the published span of each credit or debit.
  static constexpr CauseText kTexts[] = {
      {"carried over", "ledger", 1.0, 1.0},
      {"rain and dust bring nitrogen", "from memory: 3-20 kg/ha a year", 0.5, 3.3},
      {"amendment", "Duengeverordnung 2017, Annex 3; Hartz and Johnstone 2006", 0.7, 1.2},
      {"soil organic matter mineralises",
       "extension rule 20 lb/acre per 1 % (10-40 lb); Univ. of Maryland Extension", 0.5, 2.0},
      {"residue in the soil is released", "Sullivan and Andrews 2012, PNW 636", 0.6, 1.3},
      {"mulch is released", "Sullivan and Andrews 2012, PNW 636; half rate on the surface", 0.4,
       1.2},
      {"ammonia from mulch", "from memory: 0-15 % of the release", 0.0, 3.0},
      {"older residue is released", "15N studies: 1-8 % of the nitrogen in the second year", 0.3,
       2.0},
      {"microbes tie up nitrogen", "Trinsoutrot et al. 2000, SSSAJ 64:918", 0.0, 1.5},
      {"crop takes up", "Duengeverordnung 2017, Annex 4 Table 4", 0.8, 1.2},
      {"legume fixes from the air", "Peoples et al. 2021, Plant Soil", 0.5, 1.5},
      {"bought in", "shortfall of the crop's demand", 0.8, 1.2},
      {"lost as gas", "Meisinger and Randall 1991 (from memory)", 0.3, 2.0},
      {"leached by drainage", "Burns 1975, J. agric. Sci. 85:443, mixing form", 0.6, 1.15},
      {"carried away with the harvest", "Duengeverordnung 2017, Annex 7 Table 2", 0.8, 1.2},
      {"plants taken off the bed", "ending of the stand", 0.8, 1.2},
      {"tops mixed into the soil", "Sullivan and Andrews 2012, PNW 636", 0.6, 1.3},
      {"tops left as mulch", "Sullivan and Andrews 2012, PNW 636", 0.4, 1.2},
      {"roots stay in the soil", "Khan et al. 2002; McNeill and Unkovich 2024", 0.6, 2.0},
      {"frost-killed tops lose nitrogen", "from memory: 10-25 % of tops", 0.7, 1.7},
      {"mulch dug in", "ending of the stand", 1.0, 1.0},
      {"soil test sets the balance", "soil test; patchiness 25 %, common practice", 0.75, 1.25},
  };
  return kTexts[static_cast<std::size_t>(cause)];
}

}  // namespace aftercrop::nitrogen
