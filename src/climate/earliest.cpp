#include <algorithm>
#include <array>
#include <cmath>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/earliest.h"
#include "aftercrop/climate/germination.h"
#include "climate/window_parts.h"

namespace aftercrop::climate {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using catalogue::Crop;
using catalogue::SowingClass;
using catalogue::Start;

constexpr double kWarmerThanLeast = 2.0;  // spring soil above the germination minimum
constexpr double kUnderWarmest = 3.0;     // of the site's warmest soil (our choice)
constexpr double kPlantsStand =
    4.0;  // colder soil than seed asks for, set out from pots (our choice)
constexpr double kWarmerThanBase = 3.0;  // air above the base for plants (common practice)
// A tender seed in the ground is safe until it shows: the tested days at the soil's temperature, at
// most fourteen, ten for crops without a row (our choice).
constexpr double kEmergenceDays = 10.0;
constexpr double kLongestEmergence = 14.0;

// Days from the median last frost: Purdue HO-203 after University of Illinois VC-14, middles of
// the ranges. Minimum that hurts a hardened seedling and the risk taken: common practice.
constexpr std::array<EarliestRule, 4> kRules = {
    {{-35.0, -7.0, 0.20}, {-17.0, -3.0, 0.20}, {0.0, 0.0, 0.10}, {10.0, 1.0, 0.05}}};

// Growth all but stops in days under ten hours (Coleman 2009, The Winter Harvest Handbook, as
// reported): nothing that does not stand through winter by design is started in them.
constexpr double kGrowingDay = 10.0;

bool needs_warm_soil(const Crop& crop) {
  return crop.start != Start::Transplant && crop.start != Start::Slip;
}

constexpr double kClovesWarmest = 15.0;  // soil, for garlic
constexpr double kChill = 10.0;          // weekly mean air that chills cloves
constexpr int kChillWeeks = 6;

int days_hidden(const Crop& crop, const WeekWeather& now) {
  const double days = emergence_days(crop.id, now.soil5_c).value_or(kEmergenceDays);
  return static_cast<int>(std::min(days, kLongestEmergence));
}

// Soil for seed: two degrees over the minimum in spring, because the model's spring soil runs one
// to two degrees warm; less, down to the minimum, where the summer soil is hardly warmer than that.
double seed_soil(const Crop& crop, const SiteClimate& site, bool spring) {
  if (!spring) return crop.soil_min_c;
  const double reachable = site.warmest_soil_c() - kUnderWarmest;
  return std::clamp(reachable, crop.soil_min_c, crop.soil_min_c + kWarmerThanLeast);
}

WindowVerdict judge_warmth(const Crop& crop, const SiteClimate& site, Week start, bool spring) {
  const WeekWeather& now = site.at(start);
  if (spring && crop.spring_min_c && now.air_c < *crop.spring_min_c) {
    return {OutOfWindow::TooCold, now.air_c, *crop.spring_min_c, "C"};
  }
  const double air = crop.base_c + kWarmerThanBase;
  if (!needs_warm_soil(crop)) {
    if (now.air_c < air) return {OutOfWindow::TooCold, now.air_c, air, "C"};
    return {};
  }
  const bool seed = crop.start == Start::Sow || crop.start == Start::Either;
  const double soil = seed ? seed_soil(crop, site, spring) : crop.soil_min_c;
  if (now.soil5_c >= soil) return {};
  const bool as_plant = crop.start == Start::Either && now.air_c >= air &&
                        now.soil5_c >= crop.soil_min_c - kPlantsStand;
  if (as_plant) return {};
  return {OutOfWindow::SoilTooCold, now.soil5_c, soil, "C"};
}

}  // namespace

EarliestRule earliest_rule(SowingClass sowing_class) {
  return kRules[static_cast<std::size_t>(sowing_class)];
}

WindowVerdict judge_earliest(const Crop& crop, const SiteClimate& site, Week start) {
  const FrostModel& frost = site.frost();
  const Date middle = calendar::monday(start).plus_days(3);
  const bool spring = frost.in_spring_half(middle);
  const EarliestRule rule = earliest_rule(crop.sowing_class);
  const bool tender = crop.sowing_class >= SowingClass::Tender;
  const bool buried = crop.start == Start::Sow || crop.start == Start::Either;
  const Date shows = middle.plus_days(tender && buried ? days_hidden(crop, site.at(start)) : 0);
  const auto since_last = frost.days_since_last(shows);
  if (spring && since_last && frost.in_spring_half(shows)) {
    const double since = *since_last;
    // The trade's days are told for the inland north, where the cold that hurts seedlings binds
    // later than they do. By mild coasts light frosts go on for weeks that hardy seed does not
    // mind: there the cold itself decides.
    if (tender && since < rule.days_from_last_frost) {
      return {OutOfWindow::TooEarly, since, rule.days_from_last_frost, "days from last frost"};
    }
    const double chance = frost.chance_after(shows, rule.hurts_seedling_c);
    if (chance > rule.risk) {
      return {OutOfWindow::TooEarly, 100.0 * chance, 100.0 * rule.risk, "% frost to come"};
    }
  }
  const double daylight = site.at(start).daylight_h;
  const double air = site.at(start).air_c;
  if (spring && crop.growth_min_c < kCoolMin && air < crop.growth_min_c && !site.no_season()) {
    return {OutOfWindow::TooCold, air, crop.growth_min_c, "C"};
  }
  if (!crop.overwinters && daylight < kGrowingDay) {
    return {OutOfWindow::DayTooShort, daylight, kGrowingDay, "h"};
  }
  return judge_warmth(crop, site, start, spring && !site.no_season());
}

// Cloves go in when the soil has fallen to 15 C, at least four weeks before it freezes, with six
// weeks under 10 C to come: where it does not freeze, any time in winter. Source: common practice;
// University of California IPM for bulbing in lengthening days.
WindowVerdict judge_cloves(const Crop& crop, const SiteClimate& site, Week start) {
  const Week coldest = site.next_coldest(start);
  int cold = 0;
  for (Week week = start; week < coldest + Weeks(16); ++week) {
    if (site.at(week).air_c < kChill) ++cold;
  }
  if (cold < kChillWeeks)
    return {OutOfWindow::NoColdSpell, 1.0 * cold, kChillWeeks, "weeks under 10 C"};
  const double soil = site.at(start).soil5_c;
  const bool spring = site.frost().in_spring_half(calendar::monday(start).plus_days(3));
  if (spring) return {OutOfWindow::TooLate, 1.0 * cold, kChillWeeks, "weeks of cold left"};
  if (soil > kClovesWarmest) return {OutOfWindow::TooEarly, soil, kClovesWarmest, "C"};
  const double later = site.at(start + Weeks(4)).soil5_c;
  if (later < 0.0) return {OutOfWindow::TooLate, later, 0.0, "C"};
  if (!weeks_to_harvest(crop, site, start)) return {OutOfWindow::TooLate, 0.0, 0.0, ""};
  return {};
}

}  // namespace aftercrop::climate
