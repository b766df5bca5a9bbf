#include "aftercrop/garden/planting.h"

#include <algorithm>

namespace aftercrop::garden {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

/// The week after the last week that days before `past` touch: a Monday begins a week that is
/// free.
Week week_past(Date past) { return calendar::week_of(past.plus_days(-1)) + Weeks(1); }

}  // namespace

WeekSpan weeks_of(const Planting& planting) {
  const Week first = calendar::week_of(planting.from);
  return {first, std::max(week_past(planting.to), first + Weeks(1))};
}

WeekSpan harvest_weeks_of(const Planting& planting) {
  const WeekSpan stand = weeks_of(planting);
  if (!planting.harvest || planting.harvest->first >= planting.harvest->past) {
    return {stand.past, stand.past};
  }
  const Week last = stand.past - Weeks(1);
  const Week first = std::clamp(calendar::week_of(planting.harvest->first), stand.first, last);
  const Week past = std::clamp(week_past(planting.harvest->past), first + Weeks(1), stand.past);
  return {first, past};
}

double dry_matter_by_height(double height_m, bool cereal) {
  constexpr double kTonnesPerHaOfPoundPerAcre = 1.12085e-3;
  constexpr double kInch = 0.0254;
  const double full_at = cereal ? 8.0 : 6.0;  // inches of a stand of 2000 lb/acre
  const double inches = height_m / kInch;
  const double pounds =
      inches <= full_at ? 2000.0 * inches / full_at : 2000.0 + 150.0 * (inches - full_at);
  return kTonnesPerHaOfPoundPerAcre * pounds;
}

}  // namespace aftercrop::garden
