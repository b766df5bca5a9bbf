#include <fmt/format.h>

#include <string>

#include "aftercrop/rules/window_words.h"
#include "support/judged.h"

// A start that is too late is told in the words of what it misses: a harvest of a few weeks is
// asked for whole, a long one in its shortest form, others miss light, winter or heat.
using namespace aftercrop;

namespace {

/// What the window says of a stand of two months in a bed of that place.
std::string told(const std::string& place, const std::string& crop, const std::string& from) {
  const support::Ground ground = support::ground_of(
      fmt::format("garden: one bed\nsite: {{climate: {}}}\nunits: metric\n"
                  "seasons: {{from: 2027-01-04, years: 2}}\n"
                  "beds:\n  - {{beds: [A], length: 6 m, width: 1 m, soil: loam}}\n",
                  place),
      fmt::format("plan: late\nplantings:\n  - {{bed: A, crop: {}, from: {}, harvest: [2028-05-01, "
                  "2028-05-15], to: 2028-05-15, ending: harvested-cut}}\n",
                  crop, from));
  const check::Judgement judged = ground.judge();
  for (const auto& finding : judged.findings.all()) {
    if (finding.id == "sown-out-of-window") return finding.message;
  }
  return "nothing";
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("window words: too late says what the rule asks, no more") {
  struct Row {
    const char* place;
    const char* crop;
    const char* from;
    const char* says;
  };
  const Row rows[] = {
      // Picked for two to four weeks: three of them are asked for.
      {"minneapolis", "bush-bean", "2027-08-02", "too late for its usual harvest before frost"},
      // Picked for six weeks and more: six of them are.
      {"minneapolis", "tomato", "2027-06-28", "too late for its shortest harvest before frost"},
      {"minneapolis", "spinach", "2027-06-21", "so late that long days make it bolt"},
      {"minneapolis", "onion-bulb", "2027-06-14", "too late to make leaves before long days"},
      {"miami", "spinach", "2027-08-02", "while the soil is too hot"},
      {"minneapolis", "garlic", "2027-08-16", "while the soil is still too warm"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.crop);
    const std::string message = told(row.place, row.crop, row.from);
    CAPTURE(message);
    CHECK(holds(message, row.says));
    CHECK_FALSE(holds(message, "too late to be picked"));
  }
  // Figures that round to the same say on which side they lie.
  const climate::WindowVerdict light{climate::OutOfWindow::DayTooShort, 9.91, 10.0, "h"};
  CHECK(rules::window_figures(light, garden::UnitSystem::Metric) == "9.9, limit 10.0 h");
  const climate::WindowVerdict warm{climate::OutOfWindow::TooEarly, 15.2, 15.0, "C"};
  CHECK(rules::window_figures(warm, garden::UnitSystem::Metric) == "just above 15 C");
  const climate::WindowVerdict cold{climate::OutOfWindow::SoilTooCold, 9.1, 12.0, "C"};
  CHECK(rules::window_figures(cold, garden::UnitSystem::Us) == "48 F, limit 54 F");
  const climate::WindowVerdict week{climate::OutOfWindow::CoverWindow, 1.0, 0.0, "weeks outside"};
  CHECK(rules::window_figures(week, garden::UnitSystem::Metric) == "1 week outside");
  const std::string bean = told("minneapolis", "bush-bean", "2027-08-02");
  CHECK(holds(bean, " weeks with it, "));
  CHECK(holds(bean, " until then"));
}
