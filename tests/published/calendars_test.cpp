#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/window.h"
#include "aftercrop/load/load.h"

// Windows of the catalogue's crops at the embedded climates against the published calendars of
// calendars.txt: what growers of a region are told. The rows were written down before the windows
// were compared with them; a row that disagrees stays and is listed with its reason in
// calendars_misses.txt. calendars_more.txt holds further calendars of the same places: they tell
// how near one calendar comes to another.
using namespace aftercrop;
using calendar::Date;
using calendar::Week;
using calendar::Weeks;

namespace {

constexpr int kTolerance = 14;   // days: a fortnight
constexpr int kShortestGap = 3;  // weeks: shorter gaps of a window are no end of a season
// The aim is 85 % of the rows. Openings come nearest; the ends of windows are further off, because
// sheets advise and the program asks what is possible. Reached so far: the test holds it.
constexpr int kAgreeing = 100;

struct Row {
  std::string climate;
  std::string crop;
  std::string event;  ///< opens, closes, harvest
  int month = 0;
  int day = 0;
  std::string name;
  std::string source;
};

std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> found;
  std::size_t from = 0;
  while (true) {
    const std::size_t bar = line.find(" | ", from);
    found.push_back(line.substr(from, bar == std::string::npos ? bar : bar - from));
    if (bar == std::string::npos) return found;
    from = bar + 3;
  }
}

// The source is the last cell; what is printed may stand before it.
std::vector<Row> read_rows(const char* name) {
  std::ifstream file(std::string(AFTERCROP_ROOT "/tests/published/") + name);
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const auto cell = fields(line);
    REQUIRE(cell.size() >= 5);
    Row row{cell[0], cell[1], cell[2].substr(0, cell[2].find(' ')), 0, 0, {}, cell.back()};
    row.month = std::stoi(cell[3].substr(0, 2));
    row.day = std::stoi(cell[3].substr(3));
    row.name = fmt::format("{} {} {}", cell[0], cell[1], cell[2]);
    rows.push_back(row);
  }
  return rows;
}

/// A season of starts: weeks that are open, short gaps closed.
struct Season {
  Week first;
  Week last;
  std::optional<Week> harvest;  ///< the first of any start in it
};

constexpr int kFirstYear = 2028;

std::vector<Season> seasons(const catalogue::Crop& crop, const climate::SiteClimate& site) {
  std::vector<Season> found;
  const Week from = calendar::week_of(*Date::from_ymd(kFirstYear - 1, 1, 1));
  const Week past = calendar::week_of(*Date::from_ymd(kFirstYear + 3, 1, 1));
  for (Week week = from; week < past; ++week) {
    if (!climate::judge_start(crop, site, week).open()) continue;
    if (found.empty() || (week - found.back().last).count() > kShortestGap) {
      found.push_back({week, week, {}});
    }
    found.back().last = week;
    if (crop.is_cover()) continue;
    if (const auto weeks = climate::weeks_to_harvest(crop, site, week)) {
      const Week harvest = week + *weeks;
      if (!found.back().harvest || harvest < *found.back().harvest) found.back().harvest = harvest;
    }
  }
  return found;
}

/// Day of the season that the event asks for.
std::optional<Date> day_of(const Season& season, const std::string& event) {
  if (event == "opens") return calendar::monday(season.first);
  if (event == "closes") return calendar::monday(season.last).plus_days(6);
  if (!season.harvest) return {};
  return calendar::monday(*season.harvest);
}

struct Outcome {
  std::optional<int> days_off;  ///< computed less published; empty = no season ever
  std::string computed;
};

Outcome compare(const Row& row, const std::vector<Season>& found) {
  Outcome best;
  for (const Season& season : found) {
    const auto day = day_of(season, row.event);
    if (!day) continue;
    // The published day of the years around; seasons at the ends of the span may be cut.
    for (int year = kFirstYear; year <= kFirstYear + 1; ++year) {
      const Date published = *Date::from_ymd(year, row.month, row.day);
      const int off = calendar::days_between(published, *day);
      if (best.days_off && std::abs(*best.days_off) <= std::abs(off)) continue;
      best = {off, day->text()};
    }
  }
  return best;
}

/// Rows that disagree, each with its reason. They stay.
std::map<std::string, std::string> misses() {
  std::ifstream file(AFTERCROP_ROOT "/tests/published/calendars_misses.txt");
  std::map<std::string, std::string> found;
  std::string reason;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (line.starts_with("  ")) {
      found.emplace(line.substr(2), reason);
    } else {
      reason = line;
    }
  }
  return found;
}

/// Sources of calendars.txt that were remembered, not read.
std::set<std::string> remembered() {
  std::ifstream file(AFTERCROP_ROOT "/tests/published/calendars.txt");
  const std::string mark = "# from memory: ";
  for (std::string line; std::getline(file, line);) {
    if (!line.starts_with(mark)) continue;
    std::istringstream words(line.substr(mark.size()));
    return {std::istream_iterator<std::string>(words), {}};
  }
  return {};
}

/// The program's windows at the embedded climates.
class Windows {
 public:
  Outcome compared_with(const Row& row) {
    const catalogue::Catalogue& rows = load::embedded_catalogue();
    auto site = sites_.find(row.climate);
    if (site == sites_.end()) {
      const catalogue::ClimateNormals* normals = rows.find_climate(row.climate);
      REQUIRE(normals != nullptr);
      climate::SiteClimate here(
          *normals, garden::Shelter::Open,
          {*calendar::parse_week("2026-W40"), *calendar::parse_week("2033-W01")},
          rows.coefficients.site);
      for (const auto& crop : rows.crops) here.prepare(crop.base_c, crop.cap_c);
      site = sites_.emplace(row.climate, std::move(here)).first;
    }
    const auto id = rows.find_crop(row.crop);
    REQUIRE(id.has_value());
    return compare(row, seasons(rows.crop(*id), site->second));
  }

 private:
  std::map<std::string, climate::SiteClimate> sites_;
};

bool agrees(const Outcome& outcome) {
  return outcome.days_off && std::abs(*outcome.days_off) <= kTolerance;
}

// Days between two printed days, the shorter way round the year.
int days_apart(const Row& one, const Row& other) {
  const auto day = [](const Row& row) { return *Date::from_ymd(2027, row.month, row.day); };
  const int days = std::abs(calendar::days_between(day(one), day(other)));
  return std::min(days, 365 - days);
}

}  // namespace

TEST_CASE("published calendars: windows and first harvests within a fortnight of what is printed") {
  Windows windows;
  const std::map<std::string, std::string> listed = misses();
  int agreeing = 0;
  int all = 0;
  for (const Row& row : read_rows("calendars.txt")) {
    CAPTURE(row.name);
    const Outcome outcome = windows.compared_with(row);
    ++all;
    agreeing += agrees(outcome) ? 1 : 0;
    CAPTURE(outcome.computed);
    CAPTURE(outcome.days_off.value_or(999));
    // Neither a silent miss nor a reason for a row that agrees.
    CHECK(agrees(outcome) != listed.contains(row.name));
  }
  CAPTURE(agreeing);
  CHECK(all >= 150);
  CHECK(agreeing >= kAgreeing);
}

TEST_CASE("published calendars: windows as near to a calendar as another one of the place comes") {
  std::map<std::string, std::vector<Row>> events;  // what is printed, by what is asked
  const std::set<std::string> memory = remembered();
  REQUIRE(memory.size() == 8);
  for (const Row& row : read_rows("calendars.txt")) {
    if (!memory.contains(row.source)) events[row.name].push_back(row);
  }
  for (const Row& row : read_rows("calendars_more.txt")) events[row.name].push_back(row);

  Windows windows;
  int asked = 0;
  double calendars = 0.0;  // sum over events: share of pairs of calendars that agree
  double program = 0.0;    // share of calendars that the program agrees with
  for (const auto& [name, printed] : events) {
    if (printed.size() < 2) continue;
    ++asked;
    int pairs = 0;
    int alike = 0;
    int near = 0;
    for (std::size_t i = 0; i < printed.size(); ++i) {
      near += agrees(windows.compared_with(printed[i])) ? 1 : 0;
      for (std::size_t j = 0; j < i; ++j) {
        ++pairs;
        alike += days_apart(printed[i], printed[j]) <= kTolerance ? 1 : 0;
      }
    }
    calendars += 1.0 * alike / pairs;
    program += 1.0 * near / static_cast<double>(printed.size());
  }
  CAPTURE(asked);
  CAPTURE(calendars / asked);
  CAPTURE(program / asked);
  CHECK(asked >= 100);
  CHECK(program >= calendars);
}
