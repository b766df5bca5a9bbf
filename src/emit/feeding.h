#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/account.h"

// Nitrogen that a plan has to buy, as something to spread.
namespace aftercrop::emit {

/// One material that would cover a stand's shortfall.
struct Dose {
  catalogue::AmendmentId material;
  double kg = 0.0;       ///< for the bed, at the typical share that becomes available
  double kg_low = 0.0;   ///< at the published high share
  double kg_high = 0.0;  ///< at the published low share
};

struct Feeding {
  const garden::Planting* planting = nullptr;
  calendar::Date date;
  bool beside_rows = false;  ///< the seed is down already: in a band, once the seedlings stand
  double nitrogen_g = 0.0;   ///< plant-available nitrogen for the bed
  std::vector<Dose> doses;   ///< alternatives, the first is the one to order
};

/// What the stands of an account need bought that start on or after `since`, in their order. A
/// need below half a gram is left out. Doses: the grower's materials, filled up to three with usual
/// ones; raw manure is no choice too near the harvest or in a garden of children (7 CFR 205.203),
/// and nothing is of which more than 5 kg/m2 would be needed.
[[nodiscard]] std::vector<Feeding> feedings(const garden::Garden& garden,
                                            const catalogue::Catalogue& catalogue,
                                            const ledger::BedAccount& account,
                                            calendar::Date since);

/// "0.9 kg (0.75 to 1.1 kg) feather meal, or 2.3 buckets ...".
[[nodiscard]] std::string doses_text(const std::vector<Dose>& doses,
                                     const catalogue::Catalogue& catalogue,
                                     garden::UnitSystem units);

/// Need, doses and the last day for raw manure of one feeding, as a paragraph.
[[nodiscard]] std::string feeding_text(const Feeding& feeding, const garden::Garden& garden,
                                       const catalogue::Catalogue& catalogue);

/// What has to be said where a dose is advised: test first, and the cautions of its materials.
[[nodiscard]] std::string feeding_caution(const Feeding& feeding,
                                          const catalogue::Catalogue& catalogue,
                                          garden::UnitSystem units);

/// One amount with what it is in buckets of 10 litres, for bulky things.
[[nodiscard]] std::string spread_text(double kg, const catalogue::Amendment& material,
                                      garden::UnitSystem units);

}  // namespace aftercrop::emit
