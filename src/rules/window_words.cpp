#include "aftercrop/rules/window_words.h"

#include <fmt/format.h>

#include <cmath>

#include "aftercrop/garden/measure_text.h"

namespace aftercrop::rules {
namespace {

using catalogue::Crop;
using climate::OutOfWindow;
using climate::SiteClimate;
using climate::WindowVerdict;

/// What a start misses, by the unit in which the window tells it.
struct Miss {
  std::string_view unit;
  std::string_view words;
};
constexpr Miss kEarly[] = {
    {"% frost to come", "before frost is unlikely enough"},
    {"days from last frost", "before frost is unlikely enough"},
    {"C.d before winter", "so early that it is too big before winter"},
    {"days to harvest", "so early that it is ready before spring"},
    {"C", "while the soil is still too warm"},
};
constexpr Miss kLate[] = {
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

template <std::size_t n>
std::string_view words_for(std::string_view unit, const Miss (&misses)[n],
                           std::string_view otherwise) {
  for (const Miss& miss : misses) {
    if (unit == miss.unit) return miss.words;
  }
  return otherwise;
}

/// A harvest of a few weeks is asked for in its usual length, a long one in its shortest.
std::string_view too_late(std::string_view unit, const Crop& crop, const SiteClimate& site) {
  if (unit == "weeks before frost") {
    const catalogue::WinterCoefficients& k = site.coefficients().winter;
    const bool usual = crop.harvest_weeks_min < k.short_harvest_weeks;
    return usual ? "too late for its usual harvest before frost"
                 : "too late for its shortest harvest before frost";
  }
  return words_for(unit, kLate, "too late to be ready within the year");
}

/// As many digits as tell one from the other, two behind the point at most.
int digits_between(double one, double other) {
  for (int digits = 0; digits < 2; ++digits) {
    if (fmt::format("{:.{}f}", one, digits) != fmt::format("{:.{}f}", other, digits)) return digits;
  }
  return 2;
}

std::string against_limit(const WindowVerdict& verdict) {
  const int digits = digits_between(verdict.computed, verdict.limit);
  return fmt::format("{:.{}f}, limit {:.{}f} {}", verdict.computed, digits, verdict.limit, digits,
                     verdict.unit);
}

/// "3 days before the last frost", "on the day of the last frost".
std::string from_last_frost(double days) {
  const double away = std::round(std::abs(days));
  if (away == 0.0) return "on the day of the last frost";
  return fmt::format("{:.0f} day{} {} the last frost", away, away == 1.0 ? "" : "s",
                     days < 0.0 ? "before" : "after");
}

/// Of "% frost to come": "33 % frost to come, limit 20 %".
std::string shares(const WindowVerdict& verdict) {
  const int digits = digits_between(verdict.computed, verdict.limit);
  return fmt::format("{:.{}f} {}, limit {:.{}f} %", verdict.computed, digits, verdict.unit,
                     verdict.limit, digits);
}

std::string temperatures(const WindowVerdict& verdict, garden::UnitSystem units) {
  const std::string found = garden::temperature_text(verdict.computed, units);
  const std::string limit = garden::temperature_text(verdict.limit, units);
  const std::string_view where = verdict.unit.substr(1);
  // The same when rounded: it is the side of the limit that counts.
  if (found == limit) {
    const bool over = verdict.computed > verdict.limit;
    return fmt::format("just {} {}{}", over ? "above" : "below", limit, where);
  }
  return fmt::format("{}, limit {}{}", found, limit, where);
}

}  // namespace

std::string_view why_shut(const WindowVerdict& verdict, const Crop& crop, const SiteClimate& site) {
  switch (verdict.why) {
    case OutOfWindow::None:
      break;
    case OutOfWindow::TooEarly:
      return words_for(verdict.unit, kEarly, "too early");
    case OutOfWindow::SoilTooCold:
      return "while the soil is too cold";
    case OutOfWindow::TooCold:
      return "into weeks that are too cold for it";
    case OutOfWindow::TooHot:
      return verdict.unit == "C in the soil" ? "while the soil is too hot"
                                             : "into weeks that are too hot for it";
    case OutOfWindow::TooLate:
      return too_late(verdict.unit, crop, site);
    case OutOfWindow::NoColdSpell:
      return "without the cold it needs";
    case OutOfWindow::DayTooShort:
      return "at a day length that does not suit it";
    case OutOfWindow::CoverWindow:
      return "outside its usual weeks from the frosts";
    case OutOfWindow::LocalCalendar:
      return "outside the dates of its local calendar";
  }
  return "outside its window";
}

std::string window_figures(const WindowVerdict& verdict, garden::UnitSystem units) {
  const std::string_view unit = verdict.unit;
  if (unit == "C" || unit.starts_with("C ")) return temperatures(verdict, units);
  if (unit.starts_with("% ")) return shares(verdict);
  if (unit == "days from last frost") {
    const std::string found = from_last_frost(verdict.computed);
    return verdict.limit == 0.0
               ? found
               : fmt::format("{}, limit {}", found, from_last_frost(verdict.limit));
  }
  if (unit == "weeks before frost") {
    return fmt::format("{:.0f} weeks with it, {:.0f} until then", verdict.computed, verdict.limit);
  }
  if (unit == "weeks to harvest") return fmt::format("more than {:.0f} weeks", verdict.limit);
  if (unit == "weeks outside" && verdict.computed < 1.5) return "1 week outside";
  if (verdict.limit == 0.0) return fmt::format("{:.0f} {}", verdict.computed, unit);
  return against_limit(verdict);
}

std::string cultivar_words(const Crop& crop, const SiteClimate& site, calendar::Week start) {
  if (crop.is_cover()) return {};
  const auto found = climate::ripening(crop, site, start);
  if (!found || !found->early) return {};
  return fmt::format("early cultivar, about {:g} days", crop.days_min);
}

}  // namespace aftercrop::rules
