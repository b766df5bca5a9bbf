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
constexpr double kWarmerThanBase = 3.0;   // air above the base for plants (common practice)
// A tender seed in the ground is safe until it shows: the tested days at the soil's temperature, at
// most fourteen, ten for crops without a row (our choice).
constexpr double kEmergenceDays = 10.0;
constexpr double kLongestEmergence = 14.0;

// Days from the median last frost: Purdue HO-203 after University of Illinois VC-14, middles of
// the ranges. Minimum that hurts a hardened seedling and the risk taken: common practice.
constexpr std::array<EarliestRule, 4> kRules = {
    {{-35.0, -7.0, 0.20}, {-17.0, -3.0, 0.20}, {0.0, 0.0, 0.10}, {10.0, 1.0, 0.05}}};

bool needs_warm_soil(const Crop& crop) {
  return crop.start != Start::Transplant && crop.start != Start::Slip;
}

int days_hidden(const Crop& crop, const WeekWeather& now) {
  const double days = emergence_days(crop.id, now.soil5_c).value_or(kEmergenceDays);
  return static_cast<int>(std::min(days, kLongestEmergence));
}

WindowVerdict judge_warmth(const Crop& crop, const WeekWeather& now, bool spring) {
  if (needs_warm_soil(crop)) {
    const bool seed = crop.start == Start::Sow || crop.start == Start::Either;
    const double least = crop.soil_min_c + (spring && seed ? kWarmerThanLeast : 0.0);
    if (now.soil5_c < least) return {OutOfWindow::SoilTooCold, now.soil5_c, least, "C"};
    return {};
  }
  const double least = crop.base_c + kWarmerThanBase;
  if (now.air_c < least) return {OutOfWindow::TooCold, now.air_c, least, "C"};
  return {};
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
    if (since < rule.days_from_last_frost) {
      return {OutOfWindow::TooEarly, since, rule.days_from_last_frost, "days from last frost"};
    }
    const double chance = frost.chance_after(shows, rule.hurts_seedling_c);
    if (chance > rule.risk) {
      return {OutOfWindow::TooEarly, 100.0 * chance, 100.0 * rule.risk, "% frost to come"};
    }
  }
  return judge_warmth(crop, site.at(start), spring && !site.no_season());
}

// Cloves go in when the soil has fallen to 15 C, while it is still at least 7 C and at least four
// weeks before it freezes, with six weeks under 10 C to come. Source: common practice; University
// of California IPM for bulbing in lengthening days.
WindowVerdict judge_cloves(const Crop& crop, const SiteClimate& site, Week start) {
  constexpr double kWarmest = 15.0;
  constexpr double kColdest = 7.0;
  constexpr double kCold = 10.0;
  constexpr int kColdWeeks = 6;
  const Week coldest = site.next_coldest(start);
  int cold = 0;
  for (Week week = start; week < coldest + Weeks(16); ++week) {
    if (site.at(week).air_c < kCold) ++cold;
  }
  if (cold < kColdWeeks)
    return {OutOfWindow::NoColdSpell, 1.0 * cold, kColdWeeks, "weeks under 10 C"};
  const double soil = site.at(start).soil5_c;
  const bool spring = site.frost().in_spring_half(calendar::monday(start).plus_days(3));
  if (spring) return {OutOfWindow::TooLate, soil, kColdest, "C"};
  if (soil > kWarmest) return {OutOfWindow::TooEarly, soil, kWarmest, "C"};
  if (soil < kColdest) return {OutOfWindow::TooLate, soil, kColdest, "C"};
  const double later = site.at(start + Weeks(4)).soil5_c;
  if (later < 0.0) return {OutOfWindow::TooLate, later, 0.0, "C"};
  if (!weeks_to_harvest(crop, site, start)) return {OutOfWindow::TooLate, 0.0, 0.0, ""};
  return {};
}

}  // namespace aftercrop::climate
