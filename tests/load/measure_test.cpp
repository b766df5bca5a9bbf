#include "load/measure.h"

#include <doctest/doctest.h>

#include <string>

#include "load/moments.h"

using namespace aftercrop;
using load::Dimension;

TEST_CASE("quantities: every unit is converted to the one used inside") {
  struct Row {
    const char* text;
    Dimension dimension;
    double value;
  };
  const Row rows[] = {
      {"24 ft", Dimension::Length, 7.3152},  // 24 x 0.3048
      {"0.75 m", Dimension::Length, 0.75},
      {"75cm", Dimension::Length, 0.75},
      {"10 inches", Dimension::Length, 0.254},  // 10 x 0.0254
      {"60 lb", Dimension::Mass, 27.2155422},   // 60 x 0.45359237
      {"60 lbs.", Dimension::Mass, 27.2155422},
      {"8 oz", Dimension::Mass, 0.226796185},  // half a pound
      {"1.5 t", Dimension::Mass, 1500},
      {"12 kg", Dimension::Mass, 12},
      {"100 lb/acre", Dimension::MassPerArea, 0.0112085},  // 1 lb/acre = 1.12085 kg/ha
      {"100 kg / ha", Dimension::MassPerArea, 0.01},
      {"1 lb/ft2", Dimension::MassPerArea, 4.88243},
      {"5 kg/m\xc2\xb2", Dimension::MassPerArea, 5},
      {"50 F", Dimension::Temperature, 10},  // (50 - 32) / 1.8
      {"-40 F", Dimension::Temperature, -40},
      {"10 \xc2\xb0"
       "C",
       Dimension::Temperature, 10},
      {"8 plants", Dimension::Plants, 8},
      {"1 plant", Dimension::Plants, 1},
      {"2 beds", Dimension::Beds, 2},
      {"20 ft2", Dimension::Area, 1.8580608},  // 20 x 0.09290304
      {"20 square feet", Dimension::Area, 1.8580608},
      {"4.5 %", Dimension::Share, 4.5},
      {"14 ppm", Dimension::Concentration, 14},
      {"3 buckets", Dimension::Volume, 30},
      {"2 gallons", Dimension::Volume, 7.570823568},
      {"1 yd3", Dimension::Volume, 764.554857984},
      {"2000 /g", Dimension::CountPerGram, 2000},
      {"6 /kg", Dimension::PricePerKg, 6},
      {"1e3 g", Dimension::Mass, 1},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    diagnostic::Diagnostics out;
    const load::Ask ask{"it", {row.dimension}, "", {-1e9, 1e9}};
    const auto measure = load::parse_measure(row.text, ask, {}, out);
    CHECK(measure);
    if (measure) CHECK(measure->value == doctest::Approx(row.value).epsilon(1e-5));
  }
}

TEST_CASE("quantities: what is no quantity says why") {
  struct Row {
    const char* text;
    const char* id;
  };
  const Row rows[] = {
      {"16", "missing-unit"},    {"", "not-a-number"},        {"ft", "not-a-number"},
      {"nan m", "not-a-number"}, {"inf m", "not-a-number"},   {"1e999 m", "not-a-number"},
      {"1,5 m", "unknown-unit"}, {"5 fet", "unknown-unit"},   {"5 kg", "wrong-unit"},
      {"-1 m", "out-of-range"},  {"1.2.3 m", "not-a-number"}, {"0x10 m", "unknown-unit"},
      {"--1 m", "not-a-number"}, {"5 m 3 cm", "unknown-unit"}};
  for (const Row& row : rows) {
    CAPTURE(row.text);
    diagnostic::Diagnostics out;
    const load::Ask ask{"it", {Dimension::Length}, "ft, m", {0.0, 100.0}};
    CHECK(!load::parse_measure(row.text, ask, {}, out));
    REQUIRE(out.all().size() == 1);
    CHECK(out.all()[0].id == row.id);
  }
}

TEST_CASE("dates: days of the calendar only, never moved") {
  struct Row {
    const char* text;
    const char* id;  ///< "" = good
  };
  const Row rows[] = {{"2027-05-20", ""},
                      {"2028-02-29", ""},
                      {"2027-02-29", "impossible-date"},
                      {"2027-13-01", "impossible-date"},
                      {"1027-01-01", "impossible-date"},
                      {"05-20", "not-a-date"},
                      {"2027-5-20", "not-a-date"},
                      {"20 May 2027", "not-a-date"},
                      {"2027-05-20T00:00", "not-a-date"}};
  for (const Row& row : rows) {
    CAPTURE(row.text);
    load::Node node;
    node.kind = load::Node::Kind::Scalar;
    node.text = row.text;
    diagnostic::Diagnostics out;
    const auto date = load::read_date(node, "the date", out);
    CHECK(date.has_value() == (std::string(row.id).empty()));
    if (date) continue;
    REQUIRE(out.all().size() == 1);
    CHECK(out.all()[0].id == row.id);
  }
}

TEST_CASE("dates: 29 February is 28 February in a year without one") {
  CHECK(load::in_year({2, 29}, 2027).text() == "2027-02-28");
  CHECK(load::in_year({2, 29}, 2028).text() == "2028-02-29");
  CHECK(load::next({5, 8}, *calendar::Date::parse("2027-06-01")).text() == "2028-05-08");
  CHECK(load::years_later(*calendar::Date::parse("2028-02-29"), 1).text() == "2029-02-28");
}
