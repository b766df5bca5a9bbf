// sown-out-of-window: sown or set out when it is too cold, too hot or too late here.
// Bad: tomato set out in April at a site with its last frost in May. Good: a fortnight after it.
// Sources: Purdue HO-203 after Univ. of Illinois VC-14; Knott's Handbook 1997; germination after
// Harrington and Minges 1954.
#include <fmt/format.h>

#include "aftercrop/climate/window.h"
#include "aftercrop/garden/measure_text.h"
#include "rules/table.h"

namespace aftercrop::rules {
namespace {

constexpr std::string_view kReferences[] = {
    "Purdue Univ. Coop. Ext. HO-203, after Univ. of Illinois VC-14 (published)",
    "Knott's Handbook for Vegetable Growers, 1997 edition (published)"};
constexpr int kSearchWeeks = 60;

void look_at_stand(const Occasion& occasion, Breaches& out) {
  if (occasion.crop().perennial()) return;  // set out in the dormant season, by custom of the place
  const climate::WindowVerdict verdict = climate::judge_start(
      occasion.crop(), occasion.ledger.site(), occasion.stand.spec.weeks.first);
  if (verdict.open()) return;
  Breach breach;
  breach.rule = garden::RuleId::SownOutOfWindow;
  breach.computed = verdict.computed;
  breach.limit = verdict.limit;
  breach.unit = verdict.unit;
  breach.detail = static_cast<int>(verdict.why);
  out.push_back(breach);
}

/// What a start that is too late misses, by the unit in which the window tells it.
struct Late {
  std::string_view unit;
  std::string_view words;
};
constexpr Late kLate[] = {
    {"% of a useful stand before frost", "too late to be of use before frost ends it"},
    {"h at harvest", "too late to be ready while days are long enough to grow"},
    {"weeks", "too late to be ready before mid-winter"},
    {"C.d before winter", "too late to be well grown before winter"},
    {"days to harvest", "too late to grow its usual days before spring"},
    {"weeks to harvest", "too late to be ready within the season"},
    {"weeks of growth before winter", "too late to be rooted before winter"},
    {"weeks of cold left", "too late for the cold it needs"},
    {"weeks of long days", "so late that long days make it bolt"},
    {"h", "too late to make leaves before long days make its bulb"},
    {"C", "too late to root before the soil freezes"},
};

/// A harvest of a few weeks is asked for in its usual length, a long one in its shortest.
std::string_view too_late(const Breach& breach, const Occasion& occasion) {
  if (std::string_view(breach.unit) == "weeks before frost") {
    const catalogue::Crop& crop = occasion.crop();
    const catalogue::WinterCoefficients& k = occasion.ledger.site().coefficients().winter;
    const bool usual = crop.harvest_weeks_min < k.short_harvest_weeks;
    return usual ? "too late for its usual harvest before frost"
                 : "too late for its shortest harvest before frost";
  }
  for (const Late& late : kLate) {
    if (breach.unit == late.unit) return late.words;
  }
  return "too late to be ready within the year";
}

std::string_view reason(const Breach& breach, const Occasion& occasion) {
  switch (static_cast<climate::OutOfWindow>(breach.detail)) {
    case climate::OutOfWindow::None:
      break;
    case climate::OutOfWindow::TooEarly:
      return "before frost is unlikely enough";
    case climate::OutOfWindow::SoilTooCold:
      return "while the soil is too cold";
    case climate::OutOfWindow::TooCold:
      return "into weeks that are too cold for it";
    case climate::OutOfWindow::TooHot:
      return std::string_view(breach.unit) == "C in the soil"
                 ? "while the soil is too hot"
                 : "into weeks that are too hot for it";
    case climate::OutOfWindow::TooLate:
      return too_late(breach, occasion);
    case climate::OutOfWindow::NoColdSpell:
      return "without the cold it needs";
    case climate::OutOfWindow::DayTooShort:
      return "at a day length that does not suit it";
    case climate::OutOfWindow::CoverWindow:
      return "outside its usual weeks from the frosts";
  }
  return "outside its window";
}

/// What was found, and what is allowed where that is not plain.
std::string figures(const Breach& breach, garden::UnitSystem units) {
  const std::string_view unit = breach.unit;
  if (unit == "C" || unit.starts_with("C ")) {
    return fmt::format("{}, limit {}{}", garden::temperature_text(breach.computed, units),
                       garden::temperature_text(breach.limit, units), unit.substr(1));
  }
  if (unit == "weeks before frost") {
    return fmt::format("{:.0f} weeks with it, {:.0f} until then", breach.computed, breach.limit);
  }
  if (unit == "weeks to harvest") return fmt::format("more than {:.0f} weeks", breach.limit);
  if (breach.limit == 0.0) return fmt::format("{:.0f} {}", breach.computed, unit);
  return fmt::format("{:.0f}, limit {:.0f} {}", breach.computed, breach.limit, unit);
}

Words describe(const Breach& breach, const Occasion& occasion) {
  Words words;
  words.message = fmt::format("{} started {} ({})", occasion.crop().name, reason(breach, occasion),
                              figures(breach, occasion.ledger.garden().units));
  const climate::SiteClimate& site = occasion.ledger.site();
  const calendar::Week start = occasion.stand.spec.weeks.first;
  for (int i = 1; i <= kSearchWeeks; ++i) {
    const calendar::Week week = start + calendar::Weeks(i);
    if (!climate::judge_start(occasion.crop(), site, week).open()) continue;
    words.help = fmt::format("the next open week begins on {}", calendar::monday(week).text());
    return words;
  }
  words.help = "this site has no open week for it within a year";
  return words;
}

}  // namespace

Rule sown_out_of_window() {
  return {garden::RuleId::SownOutOfWindow, nullptr, look_at_stand, nullptr, describe, kReferences};
}

}  // namespace aftercrop::rules
