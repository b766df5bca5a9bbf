#include "aftercrop/climate/window.h"

#include <doctest/doctest.h>

#include <chrono>
#include <map>
#include <string>

#include "aftercrop/climate/degree_days.h"
#include "aftercrop/climate/maturity.h"
#include "aftercrop/climate/outlook.h"
#include "support/sites.h"
#include "support/window_crops.h"

using namespace aftercrop;
using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Crop;
using catalogue::FrostAnchor;
using climate::OutOfWindow;
using climate::SiteClimate;
using garden::Shelter;

namespace {

SiteClimate site(const char* id, Shelter shelter = Shelter::Open) {
  SiteClimate here(support::site_normals(id), shelter,
                   {*calendar::parse_week("2026-W01"), *calendar::parse_week("2031-W01")},
                   support::site_coefficients());
  for (const auto& row : support::kWindowCrops) here.prepare(row.base_c, row.cap_c);
  return here;
}

Week week(const char* date) { return calendar::week_of(*Date::parse(date)); }

bool open(const char* crop, const SiteClimate& here, const char* date) {
  return climate::judge_start(support::window_crop(crop), here, week(date)).open();
}

}  // namespace

// What growers of the place would say: common practice. `open` dates must be inside the window,
// `shut` dates outside.
TEST_CASE("window: starts are open when a grower of the place would plant, and shut when not") {
  struct Row {
    const char* site;
    const char* crop;
    const char* open[3];
    const char* shut[3];
  };
  const Row rows[] = {
      {"minneapolis",
       "tomato",
       {"2027-05-17", "2027-05-31", "2027-06-10"},
       {"2027-04-26", "2027-08-02", "2027-12-06"}},
      {"minneapolis",
       "garlic",
       {"2027-10-04", "2027-10-11", "2027-10-25"},
       {"2027-04-12", "2027-07-12", "2027-12-06"}},
      {"minneapolis",
       "pea-shell",
       {"2027-04-12", "2027-04-19", "2027-05-03"},
       {"2027-03-08", "2027-09-13", "2027-12-06"}},
      {"minneapolis",
       "sweet-corn",
       {"2027-05-17", "2027-05-31", "2027-06-14"},
       {"2027-04-19", "2027-08-09", "2027-10-04"}},
      {"minneapolis",
       "cucumber",
       {"2027-05-31", "2027-06-07", "2027-06-21"},
       {"2027-05-03", "2027-08-16", "2027-10-04"}},
      {"minneapolis",
       "radish",
       {"2027-04-26", "2027-06-07", "2027-08-23"},
       {"2027-03-15", "2027-10-11", "2027-12-13"}},
      {"minneapolis",
       "spinach",
       {"2027-04-12", "2027-05-03", "2027-08-16"},
       {"2027-02-15", "2027-07-05", "2027-11-01"}},
      {"minneapolis",
       "lettuce-head",
       {"2027-04-19", "2027-04-26", "2027-08-02"},
       {"2027-03-08", "2027-05-10", "2027-09-27"}},
      {"minneapolis",
       "carrot",
       {"2027-04-26", "2027-06-07", "2027-07-12"},
       {"2027-03-15", "2027-09-06", "2027-11-15"}},
      {"minneapolis",
       "onion-bulb",
       {"2027-04-12", "2027-04-26", "2027-05-10"},
       {"2027-03-01", "2027-07-05", "2027-09-20"}},
      {"minneapolis",
       "leek",
       {"2027-04-19", "2027-05-10", "2027-05-31"},
       {"2027-03-01", "2027-08-16", "2027-11-08"}},
      {"minneapolis",
       "potato",
       {"2027-04-26", "2027-05-10", "2027-05-31"},
       {"2027-03-22", "2027-08-02", "2027-10-11"}},
      {"minneapolis",
       "sprouting-broccoli",
       {nullptr, nullptr, nullptr},
       {"2027-06-07", "2027-07-05", "2027-08-02"}},
      {"london",
       "tomato",
       {"2027-05-17", "2027-05-31", "2027-06-10"},
       {"2027-04-05", "2027-08-02", "2027-11-01"}},
      {"london",
       "garlic",
       {"2027-10-11", "2027-11-01", "2027-11-22"},
       {"2027-04-12", "2027-08-02", "2027-09-06"}},
      {"london",
       "pea-shell",
       {"2027-03-08", "2027-04-05", "2027-05-10"},
       {"2027-01-25", "2027-10-04", "2027-12-06"}},
      {"london",
       "leek",
       {"2027-05-17", "2027-06-14", "2027-08-02"},
       {"2027-01-25", "2027-10-11", "2027-12-06"}},
      {"london",
       "spinach",
       {"2027-03-15", "2027-08-16", "2027-09-20"},
       {"2027-01-25", "2027-07-05", "2027-12-06"}},
      {"london",
       "sprouting-broccoli",
       {"2027-06-07", "2027-07-05", "2027-08-02"},
       {"2027-03-01", "2027-10-11", "2027-12-06"}},
      {"london",
       "potato",
       {"2027-03-22", "2027-04-12", "2027-05-10"},
       {"2027-01-25", "2027-09-06", "2027-11-01"}},
      {"christchurch",
       "tomato",
       {"2027-11-08", "2027-11-15", "2027-11-29"},
       {"2027-04-05", "2027-07-05", "2027-09-06"}},
      {"christchurch",
       "garlic",
       {"2027-04-12", "2027-05-10", "2027-06-07"},
       {"2027-01-11", "2027-10-04", "2027-12-06"}},
      {"christchurch",
       "pea-shell",
       {"2027-09-20", "2027-10-04", "2027-11-01"},
       {"2027-04-12", "2027-06-07", "2027-08-02"}},
      {"christchurch",
       "carrot",
       {"2027-10-11", "2027-11-08", "2027-12-06"},
       {"2027-04-12", "2027-06-07", "2027-08-16"}},
      {"hobart",
       "tomato",
       {"2027-10-25", "2027-11-08", "2027-11-22"},
       {"2027-03-08", "2027-06-07", "2027-08-16"}},
      {"miami",
       "tomato",
       {"2027-01-11", "2027-09-13", "2027-11-01"},
       {"2027-05-10", "2027-06-07", "2027-07-05"}},
      {"miami",
       "lettuce-head",
       {"2027-01-11", "2027-10-04", "2027-11-15"},
       {"2027-05-10", "2027-06-14", "2027-07-12"}},
      {"miami", "garlic", {nullptr, nullptr, nullptr}, {"2027-03-08", "2027-07-12", "2027-11-08"}},
      {"singapore",
       "sweet-corn",
       {"2027-02-08", "2027-06-07", "2027-10-11"},
       {nullptr, nullptr, nullptr}},
      {"singapore",
       "pea-shell",
       {nullptr, nullptr, nullptr},
       {"2027-02-08", "2027-06-07", "2027-10-11"}},
  };
  std::map<std::string, SiteClimate> sites;
  for (const Row& row : rows) {
    CAPTURE(std::string(row.site));
    CAPTURE(std::string(row.crop));
    const SiteClimate& here = sites.try_emplace(row.site, site(row.site)).first->second;
    for (const char* date : row.open) {
      if (date == nullptr) continue;
      CAPTURE(std::string(date));
      CHECK(open(row.crop, here, date));
    }
    for (const char* date : row.shut) {
      if (date == nullptr) continue;
      CAPTURE(std::string(date));
      CHECK_FALSE(open(row.crop, here, date));
    }
  }
}

TEST_CASE("window: the reason of a refusal carries its figures") {
  const SiteClimate minneapolis = site("minneapolis");
  const SiteClimate miami = site("miami");
  const SiteClimate singapore = site("singapore");
  const auto why = [](const char* crop, const SiteClimate& here, const char* date) {
    return climate::judge_start(support::window_crop(crop), here, week(date));
  };
  const auto early = why("tomato", minneapolis, "2027-05-03");
  CHECK(early.why == OutOfWindow::TooEarly);
  CHECK(early.computed > early.limit);  // more than a tenth of the years still freeze
  CHECK(early.limit == doctest::Approx(10.0));
  const auto cold = why("pea-shell", minneapolis, "2027-03-29");
  CHECK(cold.why == OutOfWindow::TooCold);
  CHECK(cold.limit == 7.0);  // peas do not grow under it
  CHECK(cold.computed < 7.0);
  Crop pea = support::window_crop("pea-shell");
  pea.growth_min_c = 0.0;
  const auto soil = climate::judge_start(pea, minneapolis, week("2027-03-29"));
  CHECK(soil.why == OutOfWindow::SoilTooCold);
  CHECK(soil.limit == 6.0);  // 4 C least + 2 C in spring
  CHECK(soil.computed < 6.0);
  CHECK(why("tomato", minneapolis, "2027-07-05").why == OutOfWindow::TooLate);
  CHECK(why("pea-shell", miami, "2027-06-07").why == OutOfWindow::TooHot);
  CHECK(why("garlic", miami, "2027-11-08").why == OutOfWindow::NoColdSpell);
  CHECK(why("onion-bulb", singapore, "2027-02-08").why == OutOfWindow::DayTooShort);
  CHECK(why("sprouting-broccoli", minneapolis, "2027-07-05").why == OutOfWindow::TooCold);
}

TEST_CASE("window: a tunnel opens earlier and closes later than open ground") {
  const SiteClimate bare = site("minneapolis");
  const SiteClimate fleece = site("minneapolis", Shelter::Fleece);
  const SiteClimate tunnel = site("minneapolis", Shelter::Tunnel);
  for (const char* crop : {"tomato", "pea-shell", "lettuce-head", "cucumber"}) {
    CAPTURE(std::string(crop));
    const auto first = [&](const SiteClimate& here) {
      Week at = week("2027-02-01");
      while (!climate::judge_start(support::window_crop(crop), here, at).open()) ++at;
      return at;
    };
    CHECK(first(tunnel) < first(fleece));
    CHECK(first(fleece) <= first(bare));
  }
}

TEST_CASE("window: an early cultivar is taken only where the middle one ends in the cold") {
  const SiteClimate here = site("minneapolis");
  Crop bean = support::window_crop("sweet-corn");
  const auto of = [&](const char* date) {
    return climate::weeks_to_harvest(bean, here, week(date));
  };
  const auto usual = climate::stretch(here, calendar::monday(week("2027-05-17")), 85.0 * 11.4, 85.0,
                                      climate::thermal_time(bean));
  REQUIRE(usual.has_value());
  CHECK(of("2027-05-17")->count() == (usual->days + 6) / 7);
  Crop middle_only = bean;
  middle_only.days_min = middle_only.days_max = 85;
  CHECK(climate::weeks_to_harvest(middle_only, here, week("2027-07-05")) > of("2027-07-05"));
}

TEST_CASE(
    "window: the seasons of a year, what shuts them and where only an early cultivar ripens") {
  const SiteClimate here = site("minneapolis");
  const auto found =
      climate::seasons_of(support::window_crop("sweet-corn"), here, week("2027-01-04"));
  REQUIRE(found.size() == 1);
  const climate::Season& season = found.front();
  CHECK(open("sweet-corn", here, "2027-06-07"));
  const Week last = season.starts.past - Weeks(1);
  for (Week at = week("2027-01-04"); at < week("2028-01-03"); ++at) {
    CAPTURE(calendar::text(at));
    const bool inside = season.starts.first <= at && at <= last;
    CHECK(climate::judge_start(support::window_crop("sweet-corn"), here, at).open() == inside);
  }
  CHECK_FALSE(season.before.open());
  CHECK_FALSE(season.after.open());
  // The last weeks ripen with the catalogue's least days only, and their harvest is the last.
  REQUIRE_FALSE(season.early.empty());
  CHECK(season.early.back().past == season.starts.past);
  CHECK(climate::ripening(support::window_crop("sweet-corn"), here, last)->early);
  CHECK_FALSE(
      climate::ripening(support::window_crop("sweet-corn"), here, week("2027-05-24"))->early);
  REQUIRE(season.first_harvest.has_value());
  CHECK(*season.first_harvest < *season.last_harvest);
  // A season that runs over the new year is one, told from its beginning.
  const SiteClimate miami = site("miami");
  for (const auto& one :
       climate::seasons_of(support::window_crop("tomato"), miami, week("2027-01-04"))) {
    CHECK_FALSE(one.before.open());
    CHECK(one.starts.first >= week("2027-01-04"));
  }
  CHECK(climate::seasons_of(support::window_crop("garlic"), miami, week("2027-01-04")).empty());
}

TEST_CASE("window: the dates of a local calendar take the place of the climate's in open ground") {
  const SiteClimate bare = site("minneapolis");
  const SiteClimate tunnel = site("minneapolis", Shelter::Tunnel);
  Crop corn = support::window_crop("sweet-corn");
  corn.local_calendar = {{{5, 25}, {6, 10}}, {{12, 28}, {1, 5}}};
  struct Row {
    const char* start;
    bool open;
  };
  const Row rows[] = {
      {"2027-05-10", false}, {"2027-05-17", false},  // the week before the first day
      {"2027-05-24", true},  {"2027-06-07", true},   // weeks that the days touch
      {"2027-06-14", false}, {"2027-12-20", false},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.start));
    const auto verdict = climate::judge_start(corn, bare, week(row.start));
    CHECK(verdict.open() == row.open);
    CHECK((row.open || verdict.why == OutOfWindow::LocalCalendar));
  }
  CHECK(climate::judge_start(corn, bare, week("2027-05-10")).computed == doctest::Approx(2.0));
  // Over the new year the days hold, and what does not ripen is told.
  CHECK(climate::judge_start(corn, bare, week("2028-01-03")).why != OutOfWindow::LocalCalendar);
  // What the climate lets start under shelter is not shut by dates of open ground.
  CHECK(climate::judge_start(corn, tunnel, week("2027-05-10")).open());
  CHECK(climate::judge_start(corn, tunnel, week("2027-06-07")).open());
  CHECK_FALSE(climate::judge_start(corn, tunnel, week("2027-02-01")).open());
}

TEST_CASE("window: what is hardy stands through a mild winter, roots and tender crops do not") {
  struct Row {
    const char* crop;
    const char* site;
    const char* start;
    bool open;
  };
  constexpr double kLettuceBears = -7.0;  // colder than most winters at Hobart's airport
  // Winter lettuce goes out in April about Hobart (Cundall, Year-round planting and sowing guide).
  // Others: common practice.
  const Row rows[] = {
      {"lettuce-head", "hobart", "2028-03-20", true},
      {"lettuce-head", "hobart", "2028-04-10", true},
      {"lettuce-head", "minneapolis", "2028-09-18", false},
      {"carrot", "hobart", "2028-03-20", false},
      {"sweet-corn", "hobart", "2028-03-20", false},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.crop) + " " + row.site + " " + row.start);
    Crop crop = support::window_crop(row.crop);
    if (crop.id == "lettuce-head") crop.kill_c = kLettuceBears;
    if (crop.id == "carrot") crop.nitrogen.curve = catalogue::Curve::Root;
    const SiteClimate here = site(row.site);
    CHECK(climate::judge_start(crop, here, week(row.start)).open() == row.open);
  }
  // What is not ready before the short days is ready when they are over, in August there.
  const SiteClimate hobart = site("hobart");
  Crop lettuce = support::window_crop("lettuce-head");
  lettuce.kill_c = kLettuceBears;
  const auto weeks = climate::weeks_to_harvest(lettuce, hobart, week("2028-04-10"));
  REQUIRE(weeks.has_value());
  CHECK(hobart.at(week("2028-04-10") + *weeks).daylight_h >= 10.0);
  CHECK(week("2028-04-10") + *weeks >= week("2028-08-01"));
}

TEST_CASE("window: garlic is lifted in early summer and asparagus waits for its age") {
  const Crop garlic = support::window_crop("garlic");
  struct Row {
    const char* site;
    const char* start;
  };
  for (const Row& row : {Row{"minneapolis", "2027-10-11"}, {"london", "2027-11-01"}}) {
    CAPTURE(std::string(row.site));
    const auto weeks = climate::weeks_to_harvest(garlic, site(row.site), week(row.start));
    REQUIRE(weeks.has_value());
    const int month = calendar::monday(week(row.start) + *weeks).month();
    CHECK((month == 6 || month == 7));
  }
  Crop asparagus = support::window_crop("kale");
  asparagus.start = catalogue::Start::Crown;
  asparagus.life_cycle = catalogue::LifeCycle::Perennial;
  asparagus.productive_years = 12;
  asparagus.days_min = 700;
  asparagus.days_max = 1100;
  asparagus.overwinters = true;
  const auto weeks = climate::weeks_to_harvest(asparagus, site("minneapolis"), week("2027-04-26"));
  REQUIRE(weeks.has_value());
  CHECK(weeks->count() >= 100);
  CHECK(weeks->count() <= 110);  // the second spring after: 104 weeks on
}

TEST_CASE("window: the harvest deadline is the week before frost, and none where there is none") {
  const Crop tomato = support::window_crop("tomato");
  const auto deadline = climate::harvest_deadline(tomato, site("minneapolis"), week("2027-08-02"));
  REQUIRE(deadline.has_value());
  CHECK(*deadline == week("2027-10-04") - Weeks(1));  // median first frost 10 October, a Sunday
  CHECK_FALSE(climate::harvest_deadline(tomato, site("singapore"), week("2027-08-02")).has_value());
  const Crop spinach = support::window_crop("spinach");
  const auto spring = climate::harvest_deadline(spinach, site("minneapolis"), week("2027-05-10"));
  REQUIRE(spring.has_value());  // winter past does not count against a spring harvest
  CHECK(*spring > week("2027-10-10"));
}

TEST_CASE("window: covers are sown in weeks from the median frosts") {
  const SiteClimate here = site("minneapolis");  // last frost 25 April, first frost 10 October
  const Crop rye = support::window_cover(
      "rye", {FrostAnchor::FirstFrost, -7, FrostAnchor::FirstFrost, 4}, 5, 2, -40);
  Crop buckwheat = support::window_cover(
      "buckwheat", {FrostAnchor::LastFrost, 0, FrostAnchor::FirstFrost, -5}, 3, 5, 0);
  buckwheat.soil_min_c = 10.0;
  struct Row {
    const Crop& crop;
    const char* date;
    OutOfWindow why;
  };
  const Row rows[] = {
      {rye, "2027-07-26", OutOfWindow::CoverWindow},  // 11 weeks before
      {rye, "2027-08-23", OutOfWindow::None},         // 7 weeks before
      {rye, "2027-11-01", OutOfWindow::None},         // 3 weeks after
      {rye, "2027-12-20", OutOfWindow::SoilTooCold},
      {buckwheat, "2027-04-12", OutOfWindow::SoilTooCold},
      {buckwheat, "2027-05-10", OutOfWindow::None},
      {buckwheat, "2027-08-30", OutOfWindow::None},
      {buckwheat, "2027-09-20", OutOfWindow::CoverWindow},
  };
  for (const Row& row : rows) {
    CAPTURE(row.crop.id);
    CAPTURE(std::string(row.date));
    CHECK(climate::judge_start(row.crop, here, week(row.date)).why == row.why);
  }
  // Inside its weeks, but frost would end it before it is of use.
  Crop late = support::window_cover("late", {FrostAnchor::LastFrost, 0, FrostAnchor::FirstFrost, 2},
                                    4, 5, 0);
  CHECK(climate::judge_start(late, here, week("2027-08-16")).open());
  const auto useless = climate::judge_start(late, here, week("2027-09-20"));
  CHECK(useless.why == OutOfWindow::TooLate);
  CHECK(useless.computed < useless.limit);
  late.kill_c = -40.0;  // what frost does not end stands through the winter
  CHECK(climate::judge_start(late, here, week("2027-09-20")).open());
  // Too short a season between the two anchors closes the window whole.
  const Crop long_one = support::window_cover(
      "long", {FrostAnchor::LastFrost, 12, FrostAnchor::FirstFrost, -13}, 3, 5, 0);
  for (Week at = week("2027-01-04"); at < week("2028-01-03"); ++at) {
    CHECK_FALSE(climate::judge_start(long_one, here, at).open());
  }
}

TEST_CASE("window: a cover's progress grows with the weather and frost ends it") {
  const SiteClimate here = site("minneapolis");
  const Crop oat = support::window_cover(
      "oat", {FrostAnchor::LastFrost, -6, FrostAnchor::FirstFrost, -5}, 5, 3, -11);
  const auto at = [&](const char* from, const char* to) {
    return climate::cover_progress(oat, here, {week(from), week(to)});
  };
  CHECK(at("2027-08-09", "2027-09-13").stand == doctest::Approx(1.0));  // five warm weeks
  CHECK(at("2027-08-09", "2027-08-23").stand == doctest::Approx(0.4));  // two of five
  CHECK(at("2027-12-06", "2028-02-07").stand == 0.0);
  CHECK(at("2027-05-03", "2027-06-28").flower > at("2027-05-03", "2027-06-14").flower);
  const auto dead = climate::killed_by_frost(oat, here, {week("2027-08-09"), week("2028-04-03")});
  REQUIRE(dead.has_value());
  CHECK(*dead > week("2027-11-15"));
  CHECK(*dead < week("2028-01-10"));
  const Crop rye = support::window_cover(
      "rye", {FrostAnchor::FirstFrost, -7, FrostAnchor::FirstFrost, 4}, 5, 2, -40);
  CHECK_FALSE(
      climate::killed_by_frost(rye, here, {week("2027-09-06"), week("2028-05-01")}).has_value());
  CHECK_FALSE(
      climate::killed_by_frost(oat, here, {week("2028-04-03"), week("2028-07-03")}).has_value());
}

TEST_CASE("window: judging every crop in every week of five years is fast") {
  const SiteClimate here = site("minneapolis");
  const auto start = std::chrono::steady_clock::now();
  int open_weeks = 0;
  for (int copy = 0; copy < 10; ++copy) {
    for (const auto& row : support::kWindowCrops) {
      const Crop crop = support::window_crop(row.id);
      for (Week at = here.covered().first; at < here.covered().past; ++at) {
        open_weeks += climate::judge_start(crop, here, at).open() ? 1 : 0;
      }
    }
  }
  const std::chrono::duration<double, std::milli> spent = std::chrono::steady_clock::now() - start;
  CAPTURE(open_weeks);
  MESSAGE("140 crops x 261 weeks in " << spent.count() << " ms");
  CHECK(spent.count() < 1000.0);  // about 50 ms on an idle machine
}

// Set beside each other: a crop without the limit, one whose limit the first week of setting keeps
// and the weeks after it pass, and one whose limit all of them keep.
TEST_CASE("window: heat is asked of all the weeks in which the usual harvest sets") {
  const SiteClimate here = site("tokyo");
  Crop crop = support::window_crop("cucumber");
  crop.harvest_mode = catalogue::HarvestMode::Repeated;
  crop.growth_max_c = 40.0;
  const Week start = week("2027-04-26");
  REQUIRE(climate::judge_start(crop, here, start).open());
  const auto weeks = climate::weeks_to_harvest(crop, here, start);
  REQUIRE(weeks.has_value());
  const int before = 3;
  const Week sets = start + *weeks - Weeks(before);
  const double first = here.at(sets).tmin_c;
  double mean = 0.0;
  for (int i = 0; i < 4; ++i) mean += here.at(sets + Weeks(i)).tmin_c / 4.0;
  REQUIRE(first + 0.3 < mean);

  crop.harvest_weeks_min = crop.harvest_weeks_max = 4;
  crop.setting = catalogue::Setting{before, (first + mean) / 2.0, 99.0};
  const auto verdict = climate::judge_start(crop, here, start);
  CHECK(verdict.why == OutOfWindow::TooHot);
  CHECK(verdict.computed == doctest::Approx(mean));
  // A harvest of one week sets in one, and that one is cool enough.
  crop.harvest_weeks_min = crop.harvest_weeks_max = 1;
  CHECK(climate::judge_start(crop, here, start).open());
  // Warmer in the first week than later: the first week is asked too.
  const Week late = week("2027-07-26");
  const auto grown = climate::weeks_to_harvest(crop, here, late);
  REQUIRE(grown.has_value());
  const Week cooling = late + *grown - Weeks(before);
  REQUIRE(here.at(cooling).tmin_c > here.at(cooling + Weeks(1)).tmin_c + 0.2);
  crop.harvest_weeks_min = crop.harvest_weeks_max = 4;
  crop.setting->night_c = here.at(cooling).tmin_c - 0.1;
  CHECK(climate::judge_start(crop, here, late).why == OutOfWindow::TooHot);
  crop.setting->night_c = here.at(cooling).tmin_c + 0.1;
  CHECK(climate::judge_start(crop, here, late).open());
  // What is taken at once sets and grows until it is lifted.
  crop.harvest_mode = catalogue::HarvestMode::Single;
  crop.harvest_weeks_min = crop.harvest_weeks_max = 1;
  double growing = 0.0;
  for (int i = 0; i < before; ++i) growing += here.at(sets + Weeks(i)).tmin_c / before;
  crop.setting->night_c = (first + growing) / 2.0;
  CHECK(climate::judge_start(crop, here, start).why == OutOfWindow::TooHot);
}

TEST_CASE("window: no seed is sown into soil that is too hot for it; plants may be set there") {
  const SiteClimate here = site("tokyo");
  Crop crop = support::window_crop("pea-shell");
  crop.growth_max_c = 40.0;
  const Week hot = week("2027-07-12");
  const double soil = here.at(hot).soil5_c;
  REQUIRE(climate::judge_start(crop, here, hot).open());
  crop.soil_max_c = soil - 0.5;
  const auto verdict = climate::judge_start(crop, here, hot);
  CHECK(verdict.why == OutOfWindow::TooHot);
  CHECK(verdict.computed == doctest::Approx(soil));
  CHECK(std::string(verdict.unit) == "C in the soil");
  crop.soil_max_c = soil + 0.5;
  CHECK(climate::judge_start(crop, here, hot).open());
  crop.soil_max_c = soil - 0.5;
  crop.start = catalogue::Start::Either;
  CHECK(climate::judge_start(crop, here, hot).open());
}

TEST_CASE("window: leaves that are cut for weeks have to be spared by the heat of all of them") {
  const SiteClimate here = site("tokyo");
  Crop once = support::window_crop("lettuce-head");
  Crop over = once;
  over.harvest_mode = catalogue::HarvestMode::CutAgain;
  over.harvest_weeks_min = over.harvest_weeks_max = 4;
  int fewer = 0;
  for (Week start = week("2027-03-01"); start < week("2027-06-28"); ++start) {
    const bool taken = climate::judge_start(once, here, start).open();
    const auto cut = climate::judge_start(over, here, start);
    if (cut.open()) CHECK(taken);
    if (!taken || cut.open()) continue;
    CHECK(cut.why == OutOfWindow::TooHot);
    ++fewer;
  }
  CHECK(fewer >= 1);
  CHECK(fewer <= 5);
}
