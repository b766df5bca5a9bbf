#include <doctest/doctest.h>

#include <string>

#include "aftercrop/garden/garden.h"
#include "aftercrop/garden/measure_text.h"

using namespace aftercrop;
using calendar::Date;

namespace {

Date day(const char* text) { return *Date::parse(text); }

}  // namespace

TEST_CASE("planting: the weeks a stand touches end at a Monday that is free, else after it") {
  struct Row {
    const char* name;
    const char* from;
    const char* to;
    const char* first;
    const char* past;
  };
  const Row rows[] = {
      {"Monday to Monday", "2027-05-31", "2027-08-30", "2027-W22", "2027-W35"},
      {"ends on a Tuesday", "2027-05-31", "2027-08-31", "2027-W22", "2027-W36"},
      {"begins on a Sunday", "2027-06-06", "2027-06-14", "2027-W22", "2027-W24"},
      {"one day", "2027-06-02", "2027-06-03", "2027-W22", "2027-W23"},
      {"over New Year with a week 53", "2026-12-28", "2027-01-04", "2026-W53", "2027-W01"},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.name));
    garden::Planting planting;
    planting.from = day(row.from);
    planting.to = day(row.to);
    const auto weeks = garden::weeks_of(planting);
    CHECK(calendar::text(weeks.first) == row.first);
    CHECK(calendar::text(weeks.past) == row.past);
  }
}

TEST_CASE("planting: harvest weeks lie inside the stand, none without a harvest") {
  garden::Planting planting;
  planting.from = day("2027-05-31");
  planting.to = day("2027-08-30");
  CHECK(garden::harvest_weeks_of(planting).length().count() == 0);
  planting.harvest = calendar::DateSpan{day("2027-08-16"), day("2027-08-30")};
  CHECK(calendar::text(garden::harvest_weeks_of(planting).first) == "2027-W33");
  CHECK(garden::harvest_weeks_of(planting).length().count() == 2);
  planting.harvest = calendar::DateSpan{day("2027-08-16"), day("2028-01-01")};
  CHECK(garden::harvest_weeks_of(planting).past == garden::weeks_of(planting).past);
}

TEST_CASE("rules: the table is in the order of the ids, names are unique and read back") {
  for (std::size_t i = 0; i < garden::kRuleCount; ++i) {
    const garden::RuleCard& card = garden::kRuleCards[i];
    CAPTURE(std::string(card.name));
    CHECK(static_cast<std::size_t>(card.id) == i);
    CHECK(garden::parse_rule(card.name) == card.id);
    CHECK(!card.summary.empty());
  }
  CHECK(!garden::parse_rule("family-brake"));
  CHECK(garden::Policy().of(garden::RuleId::FamilyBreak) == garden::Setting::Require);
  CHECK(garden::Policy().of(garden::RuleId::PartnerMissing) == garden::Setting::Note);
  for (const char* word : {"off", "note", "warn", "require"}) {
    CHECK(garden::name(*garden::parse_setting(word)) == word);
  }
}

TEST_CASE("want: area needed at typical yield, by mass, stems, plants or area") {
  catalogue::Crop crop;
  crop.yield_unit = catalogue::YieldUnit::Kilograms;
  crop.yield_per_m2 = {2.2, 4.0, 8.0};
  crop.in_row_cm = 40;
  crop.between_row_cm = 50;
  garden::Want want;
  want.amount = 99.79;
  CHECK(garden::area_needed_m2(want, crop) == doctest::Approx(24.95).epsilon(0.001));  // / 4.0
  want.unit = garden::WantUnit::Plants;
  want.amount = 20;
  CHECK(garden::area_needed_m2(want, crop) == doctest::Approx(4.0));  // 5 plants a m2
  want.unit = garden::WantUnit::SquareMetres;
  CHECK(garden::area_needed_m2(want, crop) == doctest::Approx(20.0));
  want.unit = garden::WantUnit::Stems;
  CHECK(garden::area_needed_m2(want, crop) == 0.0);  // gives none
}

TEST_CASE("garden: a bed's name stands for all its sections") {
  garden::Garden garden;
  for (const char* name : {"N1.1", "N1.2", "N2"}) {
    garden::Bed bed;
    bed.name = name;
    bed.whole = std::string(name).substr(0, 2);
    garden.beds.push_back(bed);
  }
  CHECK(garden.find("N1").size() == 2);
  CHECK(garden.find("N1.2").size() == 1);
  CHECK(garden.find("N2").size() == 1);
  CHECK(garden.find("N3").empty());
}

TEST_CASE("measures: figures in a sentence are said in the garden's units") {
  using garden::prose_text;
  using garden::UnitSystem;
  struct Row {
    const char* metric;
    const char* us;
  };
  // 3 m = 9.84 ft, 6 m = 19.7 ft; 15 C = 59 F; 10 mm = 0.394 in; 50 t/ha = 22.3 ton/acre;
  // 170 kg/ha = 151.7 lb/acre
  const Row rows[] = {
      {"strip at the edge, 3 to 6 m bare gap", "strip at the edge, 9.8 to 20 ft bare gap"},
      {"netting, 1.5 to 2 m high", "netting, 4.9 to 6.6 ft high"},
      {"8 to 20 weeks above 15 C, before", "8 to 20 weeks above 59 F, before"},
      {"keep compost to 10 mm (about 50 t/ha fresh) a year",
       "keep compost to 0.39 in (about 22 ton/acre fresh) a year"},
      {"170 kg of total nitrogen per hectare and year",
       "150 lb of total nitrogen per acre and year"},
      {"grade C: 2 to 3 weeks, 10 %, 4 Cm, N1.2 m2", "grade C: 2 to 3 weeks, 10 %, 4 Cm, N1.2 m2"}};
  for (const Row& row : rows) {
    CHECK(prose_text(row.metric, UnitSystem::Us) == row.us);
    CHECK(prose_text(row.metric, UnitSystem::Metric) == row.metric);
  }
}
