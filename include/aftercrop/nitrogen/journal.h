#pragma once

#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/causes.h"
#include "aftercrop/catalogue/ids.h"

namespace aftercrop::nitrogen {

/// The named pools of a bed, all in kg N/ha. `TieUp` is a demand of soil microbes, not nitrogen.
enum class Pool { Mineral, Fast, TieUp, Mulch, Slow, Crop };
inline constexpr std::size_t kPools = 6;
inline constexpr std::array<std::string_view, kPools> kPoolNames = {"mineral", "fast", "tie_up",
                                                                    "mulch",   "slow", "crop"};

/// Why nitrogen moved. Each has words, a range and a source (NitrogenCoefficients::causes); the
/// order is that of catalogue::kCauseKeys.
enum class Cause {
  Opening,
  Deposition,
  Amendment,
  SoilSupply,
  ResidueRelease,
  MulchRelease,
  Ammonia,
  SlowRelease,
  TieUp,
  Uptake,
  SoilLife,
  Fixation,
  Bought,
  GasLoss,
  Leaching,
  Harvest,
  CarriedOff,
  ResidueBuried,
  ResidueMulched,
  RootsLeft,
  WinterLoss,
  MulchDugIn,
  SoilTest,
  LeyEffect,
};
static_assert(static_cast<std::size_t>(Cause::LeyEffect) + 1 == catalogue::kCauses);

/// One line of the account: so much into (+) or out of (-) one pool in one week.
struct Posting {
  calendar::Week week;
  Pool pool = Pool::Mineral;
  double kg_per_ha = 0.0;
  Cause cause = Cause::Opening;
  catalogue::CropId crop;  ///< the stand or residue it is about; unknown = none
};

/// Collects postings; the search works without one.
class Journal {
 public:
  void post(calendar::Week week, Pool pool, double kg_per_ha, Cause cause,
            catalogue::CropId crop = {}) {
    if (kg_per_ha != 0.0) postings_.push_back({week, pool, kg_per_ha, cause, crop});
  }
  [[nodiscard]] const std::vector<Posting>& postings() const { return postings_; }

 private:
  std::vector<Posting> postings_;
};

}  // namespace aftercrop::nitrogen
