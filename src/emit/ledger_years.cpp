#include "emit/ledger_years.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::emit {
namespace {

using calendar::Week;
using nitrogen::Cause;
using nitrogen::Pool;

void put(nitrogen::Pools& pools, const nitrogen::Posting& posting) {
  double* const places[] = {&pools.mineral, &pools.fast, &pools.tie_up,
                            &pools.mulch,   &pools.slow, &pools.crop};
  *places[static_cast<std::size_t>(posting.pool)] += posting.kg_per_ha;
}

int year_of(Week week) { return calendar::iso(week).year; }

void add_posting(YearSum& sum, const nitrogen::Posting& posting) {
  if (posting.pool == Pool::Mineral) sum.mineral[posting.cause] += posting.kg_per_ha;
  if (posting.pool != Pool::Crop) return;
  if (posting.cause == Cause::Fixation) sum.fixed += posting.kg_per_ha;
  if (posting.cause == Cause::Bought) sum.bought += posting.kg_per_ha;
  if (posting.cause == Cause::Harvest || posting.cause == Cause::CarriedOff) {
    sum.removed -= posting.kg_per_ha;
  }
}

void add_stands(const ledger::BedAccount& account, YearSum& sum) {
  for (const ledger::StandLine& line : account.stands) {
    const calendar::WeekSpan weeks = line.stand.spec.weeks;
    if (weeks.past <= sum.first || weeks.first >= sum.past) continue;
    sum.stands.push_back(&line);
    const bool starts = year_of(weeks.first) == sum.year;
    if (starts && !line.stand.cover) sum.short_kg_ha += line.outcome.flows.shortfall;
  }
  for (const ledger::WinterStart& winter : account.winters) {
    if (year_of(winter.week) == sum.year) sum.before_wet = winter.mineral;
  }
}

void add_loads(const ledger::BedAccount& account, std::vector<YearSum>& years) {
  std::vector<double> loads = account.load_opening;
  std::size_t next = 0;
  for (YearSum& sum : years) {
    sum.load_opening = loads;
    sum.load_spans.resize(loads.size());
    while (next < account.load_events.size() &&
           year_of(account.load_events[next].week) <= sum.year) {
      const ledger::LoadEvent& event = account.load_events[next];
      loads[event.tracked] = event.load;
      if (event.low >= 0.0) sum.load_spans[event.tracked] = Span{event.load, event.low, event.high};
      ++next;
    }
    sum.load_closing = &sum == &years.back() ? account.load_closing : loads;
  }
}

Span sum_of(const YearSum& year, const catalogue::NitrogenCoefficients& k, double sign) {
  std::vector<Span> spans;
  for (const auto& [cause, amount] : year.mineral) {
    if (amount * sign > 0.0) spans.push_back(span_of(year, cause, k));
  }
  return independent_sum(spans);
}

}  // namespace

Span independent_sum(const std::vector<Span>& spans) {
  Span sum;
  double below = 0.0;
  double above = 0.0;
  for (const Span& one : spans) {
    sum.middle += one.middle;
    below += (one.middle - one.low) * (one.middle - one.low);
    above += (one.high - one.middle) * (one.high - one.middle);
  }
  sum.low = std::max(0.0, sum.middle - std::sqrt(below));
  sum.high = sum.middle + std::sqrt(above);
  return sum;
}

std::vector<YearSum> sum_by_year(const ledger::BedAccount& account) {
  std::vector<YearSum> years;
  nitrogen::Pools pools = account.opening;
  for (const nitrogen::Posting& posting : account.postings) {
    const int year = year_of(posting.week);
    if (years.empty() || years.back().year != year) {
      years.emplace_back();
      years.back().year = year;
      years.back().first = posting.week;
      years.back().opening = pools;
    }
    YearSum& sum = years.back();
    put(pools, posting);
    sum.past = posting.week + calendar::Weeks(1);
    sum.closing = pools;
    add_posting(sum, posting);
  }
  for (YearSum& sum : years) add_stands(account, sum);
  add_loads(account, years);
  return years;
}

Span span_of(const YearSum& year, Cause cause, const catalogue::NitrogenCoefficients& k) {
  const auto found = year.mineral.find(cause);
  if (found == year.mineral.end()) return {};
  const double size = std::abs(found->second);
  const catalogue::CauseText& words = k.causes[static_cast<std::size_t>(cause)];
  return {size, size * words.low, size * words.high};
}

Span came_in(const YearSum& year, const catalogue::NitrogenCoefficients& k) {
  return sum_of(year, k, 1.0);
}

Span went_out(const YearSum& year, const catalogue::NitrogenCoefficients& k) {
  return sum_of(year, k, -1.0);
}

Span short_of(const YearSum& year, const catalogue::NitrogenCoefficients& k) {
  const Span in = came_in(year, k);
  const Span asked = span_of(year, Cause::Uptake, k);
  const double wide = asked.high - asked.middle;
  Span span{year.short_kg_ha, 0.0, 0.0};
  span.low = std::max(0.0, span.middle - std::hypot(in.high - in.middle, wide));
  span.high = span.middle + std::hypot(in.middle - in.low, wide);
  return span;
}

}  // namespace aftercrop::emit
