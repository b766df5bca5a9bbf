#include "aftercrop/nitrogen/residue.h"

#include <algorithm>

namespace aftercrop::nitrogen {
namespace {

void post(const Moment& moment, Pool pool, double amount, Cause cause, catalogue::CropId crop) {
  if (moment.journal != nullptr) moment.journal->post(moment.week, pool, amount, cause, crop);
}

void take_from_crop(Pools& pools, double amount, Cause cause, catalogue::CropId crop,
                    const Moment& moment) {
  pools.crop -= amount;
  post(moment, Pool::Crop, -amount, cause, crop);
}

/// Share of plant nitrogen above ground that stays on the bed, and how.
enum class Tops { Leave, Buried, Mulched };

Tops tops_of(catalogue::Ending ending) {
  using catalogue::Ending;
  switch (ending) {
    case Ending::HarvestedPulled:
    case Ending::HarvestedCut:
      return Tops::Leave;
    case Ending::Incorporated:
      return Tops::Buried;
    case Ending::CutRootsLeft:
    case Ending::Mown:
    case Ending::Tarped:
    case Ending::Winterkilled:
    case Ending::Failed:
      return Tops::Mulched;
  }
  return Tops::Leave;
}

void end_tops(Pools& pools, Residue tops, catalogue::Ending ending,
              const catalogue::NitrogenCoefficients& k, const Moment& moment) {
  switch (tops_of(ending)) {
    case Tops::Leave:
      take_from_crop(pools, tops.n_kg_ha, Cause::CarriedOff, tops.crop, moment);
      return;
    case Tops::Buried:
      take_from_crop(pools, tops.n_kg_ha, Cause::ResidueBuried, tops.crop, moment);
      bury(pools, tops, k, moment);
      return;
    case Tops::Mulched:
      break;
  }
  if (ending == catalogue::Ending::Winterkilled) {
    const double lost = k.winterkill_loss * tops.n_kg_ha;
    take_from_crop(pools, lost, Cause::WinterLoss, tops.crop, moment);
    const double washed_in = (1.0 - k.winterkill_to_air) * lost;
    pools.release(washed_in);
    post(moment, Pool::Mineral, washed_in, Cause::WinterLoss, tops.crop);
    tops.n_kg_ha -= lost;
  }
  take_from_crop(pools, tops.n_kg_ha, Cause::ResidueMulched, tops.crop, moment);
  lay_as_mulch(pools, tops, k, moment);
}

}  // namespace

double final_net(const Residue& residue, const catalogue::NitrogenCoefficients& k) {
  return k.gross_share * residue.n_kg_ha - k.tie_up_per_dm * residue.dry_t_ha;
}

void bury(Pools& pools, const Residue& residue, const catalogue::NitrogenCoefficients& k,
          const Moment& moment, Cause cause) {
  const double fast = k.gross_share * residue.n_kg_ha;
  const double demand = k.tie_up_per_dm * residue.dry_t_ha;
  const double slow = k.slow_share * (residue.n_kg_ha - fast);
  pools.fast += fast;
  pools.tie_up += demand;
  pools.slow += slow;
  post(moment, Pool::Fast, fast, cause, residue.crop);
  post(moment, Pool::TieUp, demand, cause, residue.crop);
  post(moment, Pool::Slow, slow, cause, residue.crop);
}

void lay_as_mulch(Pools& pools, const Residue& residue, const catalogue::NitrogenCoefficients& k,
                  const Moment& moment) {
  const double net = final_net(residue, k);
  const double mulch = std::max(0.0, net);
  const double demand = k.surface_tie_up_share * std::max(0.0, -net);
  const double slow = k.slow_share * (residue.n_kg_ha - mulch);
  pools.mulch += mulch;
  pools.tie_up += demand;
  pools.slow += slow;
  post(moment, Pool::Mulch, mulch, Cause::ResidueMulched, residue.crop);
  post(moment, Pool::TieUp, demand, Cause::ResidueMulched, residue.crop);
  post(moment, Pool::Slow, slow, Cause::ResidueMulched, residue.crop);
}

double harvest(Pools& pools, double kg_per_ha, catalogue::CropId crop, const Moment& moment) {
  const double picked = std::min(kg_per_ha, pools.crop);
  take_from_crop(pools, picked, Cause::Harvest, crop, moment);
  return picked;
}

void end_stand(Pools& pools, const StandingCrop& standing, catalogue::Ending ending,
               const catalogue::NitrogenCoefficients& k, const Moment& moment) {
  Residue roots{standing.roots_kg_ha, standing.roots_dry_t_ha, standing.crop};
  if (ending == catalogue::Ending::HarvestedPulled) {
    const double pulled = k.pulled_root_share * roots.n_kg_ha;
    take_from_crop(pools, pulled, Cause::CarriedOff, standing.crop, moment);
    roots.n_kg_ha -= pulled;
    roots.dry_t_ha *= 1.0 - k.pulled_root_share;
  }
  take_from_crop(pools, roots.n_kg_ha, Cause::RootsLeft, standing.crop, moment);
  bury(pools, roots, k, moment, Cause::RootsLeft);

  end_tops(pools, {standing.tops_kg_ha, standing.tops_dry_t_ha, standing.crop}, ending, k, moment);
  if (ending == catalogue::Ending::Incorporated) {
    post(moment, Pool::Mulch, -pools.mulch, Cause::MulchDugIn, standing.crop);
    post(moment, Pool::Fast, pools.mulch, Cause::MulchDugIn, standing.crop);
    pools.fast += pools.mulch;
    pools.mulch = 0.0;
  }
  // What rounding leaves of the crop pool is carried off with the tops.
  take_from_crop(pools, pools.crop, Cause::CarriedOff, standing.crop, moment);
}

}  // namespace aftercrop::nitrogen
