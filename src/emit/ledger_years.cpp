#include "emit/ledger_years.h"

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;
using nitrogen::Pool;

void put(nitrogen::Pools& pools, const nitrogen::Posting& posting) {
  double* const places[] = {&pools.mineral, &pools.fast, &pools.tie_up,
                            &pools.mulch,   &pools.slow, &pools.crop};
  *places[static_cast<std::size_t>(posting.pool)] += posting.kg_per_ha;
}

}  // namespace

std::vector<YearSum> sum_by_year(const ledger::BedAccount& account) {
  std::vector<YearSum> years;
  nitrogen::Pools pools = account.opening;
  for (const nitrogen::Posting& posting : account.postings) {
    const int year = calendar::iso(posting.week).year;
    if (years.empty() || years.back().year != year) {
      years.emplace_back();
      years.back().year = year;
      years.back().opening = pools;
    }
    YearSum& sum = years.back();
    put(pools, posting);
    sum.closing = pools;
    if (posting.pool == Pool::Mineral) sum.mineral[posting.cause] += posting.kg_per_ha;
    if (posting.pool != Pool::Crop) continue;
    if (posting.cause == Cause::Fixation) sum.fixed += posting.kg_per_ha;
    if (posting.cause == Cause::Bought) sum.bought += posting.kg_per_ha;
    if (posting.cause == Cause::Harvest || posting.cause == Cause::CarriedOff) {
      sum.removed -= posting.kg_per_ha;
    }
  }
  return years;
}

}  // namespace aftercrop::emit
