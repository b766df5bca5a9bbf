#include "aftercrop/nitrogen/step.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace aftercrop::nitrogen {
namespace {

constexpr double kFlatAboveC = 35.0;  // Stanford, Frere and Schwaninger 1973: measured 5-35 C

/// Writes both sides of a flow between two pools.
class Ledgerline {
 public:
  Ledgerline(calendar::Week week, Journal* journal) : week_(week), journal_(journal) {}
  void post(Pool pool, double amount, Cause cause, catalogue::CropId crop = {}) const {
    if (journal_ != nullptr) journal_->post(week_, pool, amount, cause, crop);
  }
  void transfer(Pool from, Pool to, double amount, Cause cause) const {
    post(from, -amount, cause);
    post(to, amount, cause);
  }

 private:
  calendar::Week week_;
  Journal* journal_;
};

void add(Pools& pools, const Additions& additions, double deposition, const Ledgerline& line) {
  pools.release(deposition);
  line.post(Pool::Mineral, deposition, Cause::Deposition);
  pools.release(additions.ley);
  line.post(Pool::Mineral, additions.ley, Cause::LeyEffect);
  pools.release(additions.mineral);
  line.post(Pool::Mineral, additions.mineral, Cause::Amendment);
  pools.fast += additions.fast;
  line.post(Pool::Fast, additions.fast, Cause::Amendment);
  pools.slow += additions.slow;
  line.post(Pool::Slow, additions.slow, Cause::Amendment);
  pools.tie_up += additions.tie_up;
  line.post(Pool::TieUp, additions.tie_up, Cause::Amendment);
}

void mineralise(Pools& pools, const WeekRates& rates, const catalogue::NitrogenCoefficients& k,
                const Ledgerline& line) {
  pools.release(rates.supply - rates.supply_below);
  pools.mineral += rates.supply_below;
  line.post(Pool::Mineral, rates.supply, Cause::SoilSupply);

  const double fast = pools.fast * rates.fast;
  pools.fast -= fast;
  pools.release(fast);
  line.transfer(Pool::Fast, Pool::Mineral, fast, Cause::ResidueRelease);

  const double mulch = pools.mulch * rates.mulch;
  const double ammonia = k.ammonia_share * mulch;
  pools.mulch -= mulch;
  pools.release(mulch - ammonia);
  line.transfer(Pool::Mulch, Pool::Mineral, mulch - ammonia, Cause::MulchRelease);
  line.post(Pool::Mulch, -ammonia, Cause::Ammonia);

  const double slow = pools.slow * rates.slow;
  pools.slow -= slow;
  pools.release(slow);
  line.transfer(Pool::Slow, Pool::Mineral, slow, Cause::SlowRelease);

  const double want = pools.tie_up * rates.tie_up;
  const double tied = std::min(want, std::max(0.0, pools.mineral));
  pools.tie_up -= want;
  pools.draw(tied);
  pools.slow += k.slow_share * tied;
  line.post(Pool::TieUp, -want, Cause::TieUp);
  line.post(Pool::Mineral, -tied, Cause::TieUp);
  line.post(Pool::Slow, k.slow_share * tied, Cause::TieUp);
}

WeekFlows feed_crop(Pools& pools, const CropWeek& crop, const catalogue::NitrogenCoefficients& k,
                    const Ledgerline& line) {
  WeekFlows flows;
  const double available = k.recovery * std::max(0.0, crop.reach * (pools.mineral - crop.residual));
  if (crop.fixation_share > 0.0) {
    const double plough_layer = k.plough_layer_share * pools.mineral;
    const double share = crop.fixation_share * std::max(0.0, 1.0 - plough_layer / k.nitrate_brake);
    flows.taken_up = std::min((1.0 - share) * crop.need, available);
    flows.fixed = std::min(crop.need - flows.taken_up, crop.fixation_ceiling * crop.need);
  } else {
    flows.taken_up = std::min(crop.need, available);
  }
  flows.shortfall = crop.need - flows.taken_up - flows.fixed;
  const double fed = crop.buys ? flows.shortfall : 0.0;
  flows.bought = fed / k.recovery;
  const double kept_per_kg = 1.0 / k.recovery - 1.0;
  const double kept = kept_per_kg * flows.taken_up;
  const double kept_of_bought = flows.bought - fed;
  const double slow = k.slow_share * (kept + kept_of_bought);
  pools.draw(flows.taken_up + kept);
  pools.crop += flows.taken_up + flows.fixed + fed;
  pools.slow += slow;
  line.post(Pool::Mineral, -flows.taken_up, Cause::Uptake, crop.crop);
  line.post(Pool::Crop, flows.taken_up, Cause::Uptake, crop.crop);
  line.post(Pool::Crop, flows.fixed, Cause::Fixation, crop.crop);
  line.post(Pool::Crop, flows.bought, Cause::Bought, crop.crop);
  line.post(Pool::Mineral, -kept, Cause::SoilLife, crop.crop);
  line.post(Pool::Crop, -kept_of_bought, Cause::SoilLife, crop.crop);
  line.post(Pool::Slow, slow, Cause::SoilLife, crop.crop);
  return flows;
}

/// One week's drainage: `share` of what is spread is leached; what lies in the topsoil moves down
/// twice as fast as the profile empties, and is leached from there. Both layers solved exactly.
/// Source: the shape of Burns 1975 for nitrate in the topsoil.
double leach(Pools& pools, double share) {
  const double stays = 1.0 - share;
  const double leached = share * (pools.mineral - pools.fresh) + share * share * pools.fresh;
  pools.mineral -= leached;
  pools.fresh *= stays * stays;
  return leached;
}

}  // namespace

double Pools::at(Pool pool) const {
  switch (pool) {
    case Pool::Mineral:
      return mineral;
    case Pool::Fast:
      return fast;
    case Pool::TieUp:
      return tie_up;
    case Pool::Mulch:
      return mulch;
    case Pool::Slow:
      return slow;
    case Pool::Crop:
      return crop;
  }
  return 0.0;
}

WeekFlows& WeekFlows::operator+=(const WeekFlows& other) {
  taken_up += other.taken_up;
  fixed += other.fixed;
  shortfall += other.shortfall;
  bought += other.bought;
  leached += other.leached;
  gas += other.gas;
  harvested += other.harvested;
  return *this;
}

double temperature_factor(double soil_c, double q10) {
  if (soil_c <= 0.0) return 0.0;
  return std::pow(q10, (std::min(soil_c, kFlatAboveC) - 20.0) / 10.0);
}

double half_life_weeks(double soil_c, const catalogue::NitrogenCoefficients& k) {
  const double slower = temperature_factor(soil_c, k.q10) / temperature_factor(35.0, k.q10);
  return std::log(2.0) / (k.first_order_rate * slower);
}

double mineralisable(double released, const catalogue::NitrogenCoefficients& k) {
  constexpr double kWeeks = 2.0;
  return released / (1.0 - std::exp(-k.first_order_rate * kWeeks));
}

double released_in(double normal_weeks, double pool, const catalogue::NitrogenCoefficients& k) {
  const double at_35 = normal_weeks / temperature_factor(35.0, k.q10);
  return pool * (1.0 - std::exp(-k.first_order_rate * at_35));
}

double supply_share(double depth_cm, const catalogue::NitrogenCoefficients& k) {
  const double profile_cm = 100.0 * k.profile_m;
  const double above = std::min(depth_cm, k.slice_cm.value) / k.slice_cm;
  const double below = std::clamp((depth_cm - k.slice_cm) / (profile_cm - k.slice_cm), 0.0, 1.0);
  return k.slice_share * above + (1.0 - k.slice_share) * below;
}

WeekRates week_rates(double soil_c, const std::array<double, 4>& drainage_mm,
                     const SoilFigures& soil, const catalogue::NitrogenCoefficients& k) {
  const double warmth = temperature_factor(soil_c, k.q10);
  const double x = warmth * soil.moisture;  // normal weeks
  WeekRates rates;
  rates.supply = k.supply_per_om * soil.annual_factor *
                 std::min(soil.organic_matter_pct, k.om_cap.value) * x / k.reference_weeks;
  rates.supply_below = rates.supply * (1.0 - supply_share(50.0 * k.profile_m, k));
  rates.deposition = k.deposition;
  rates.fast = 1.0 - std::exp(-k.rate_fast * x);
  rates.mulch = 1.0 - std::exp(-k.rate_mulch * x);
  rates.slow = 1.0 - std::exp(-k.rate_slow * x);
  rates.tie_up = 1.0 - std::exp(-k.rate_tie_up * x);
  rates.gas = k.gas_rate * warmth * soil.wetness;
  for (std::size_t ground = 0; ground < rates.leach.size(); ++ground) {
    rates.leach[ground] =
        1.0 - std::exp(-drainage_mm[ground] / (1000.0 * soil.field_capacity * k.profile_m));
  }
  return rates;
}

WeekFlows step(Pools& pools, const WeekRates& rates, const Additions& additions,
               const CropWeek* crop, std::size_t ground, const catalogue::NitrogenCoefficients& k,
               calendar::Week week, Journal* journal) {
  const Ledgerline line(week, journal);
  add(pools, additions, rates.deposition, line);
  mineralise(pools, rates, k, line);
  WeekFlows flows;
  if (crop != nullptr) flows = feed_crop(pools, *crop, k, line);

  flows.gas = pools.mineral * rates.gas;
  pools.draw(flows.gas);
  line.post(Pool::Mineral, -flows.gas, Cause::GasLoss);
  flows.leached = leach(pools, rates.leach[ground]);
  line.post(Pool::Mineral, -flows.leached, Cause::Leaching);
  assert(pools.mineral >= -1e-9 && "mineral nitrogen must not become negative");
  return flows;
}

}  // namespace aftercrop::nitrogen
