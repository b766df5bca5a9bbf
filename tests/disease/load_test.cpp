#include "aftercrop/disease/load.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>

#include "aftercrop/load/load.h"

using namespace aftercrop;
using disease::LoadMap;

namespace {

constexpr double kWeeksPerYear = 365.25 / 7.0;
constexpr double kSeason = 20.0;

LoadMap idle(double years, double half_life) {
  return disease::decay(years * kWeeksPerYear, half_life);
}
LoadMap season(double doublings, double ceiling = 16.0) {
  return disease::host_weeks(kSeason, kSeason, doublings, ceiling);
}
doctest::Approx exactly(double value) { return doctest::Approx(value).epsilon(1e-9); }

double between(double low, double high) {
  return low +
         (high - low) * (*rc::gen::resize(rc::kNominalSize, rc::gen::inRange(0, 10001))) / 10000.0;
}

/// Any event of a bed's life but a sighting.
LoadMap any_event() {
  switch (*rc::gen::resize(rc::kNominalSize, rc::gen::inRange(0, 3))) {
    case 0:
      return disease::decay(between(0, 300), between(0.3, 20));
    case 1:
      return disease::host_weeks(between(0, 52), between(20, 52), between(0, 5), 16);
    default:
      return disease::kill(between(0, 0.9), between(0, 1));
  }
}

const catalogue::Crop& crop(const char* id) {
  const auto& rows = load::embedded_catalogue();
  const auto found = rows.find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return rows.crop(*found);
}

}  // namespace

TEST_CASE("load: a week without a host") {
  // 7 / 365.25 / 3.6 = 0.0053235988 doublings; 2^-0.0053235988 = 0.9963167624.
  const LoadMap week = disease::decay(1.0, 3.6);
  CHECK(-std::log2(week.a) == exactly(0.0053235988).epsilon(1e-8));
  CHECK(week.a == exactly(0.9963167624).epsilon(1e-10));
  CHECK(week.b == 0.0);
}

TEST_CASE("load: half-lives halve") {
  CHECK(idle(3.6, 3.6)(8.0) == exactly(4.0));
  CHECK(idle(10.8, 3.6)(8.0) == exactly(1.0));
  CHECK(idle(18.0, 3.6)(8.0) == exactly(0.25));
}

TEST_CASE("load: one season of a host, with saturation") {
  CHECK(season(2)(0.05) == exactly(0.1981424149));  // 4 x 0.05 / (1 + 3 x 0.05 / 16)
  for (const double doublings : {0.5, 1.0, 3.0, 5.0}) {
    CHECK(season(doublings)(16.0) == exactly(16.0));  // the ceiling is a fixed point
  }
  CHECK(season(1)(season(1)(0.3)) == exactly(1.1360946746));
  CHECK(season(2)(0.3) == exactly(1.1360946746));  // two halves are the whole
}

TEST_CASE("load: idle, host and idle again as one map") {
  // 26 weeks of half-life 2 keep 0.84139; a = 4 x 0.84139^2, b = 0.84139 x 3 / 16.
  const LoadMap rest = disease::decay(26, 2);
  const LoadMap all = disease::then(disease::then(rest, season(2)), rest);
  CHECK(all.a == exactly(2.8317838657));
  CHECK(all.b == exactly(0.1577616093));
  CHECK(all(0.05) == exactly(0.1404810673));
}

TEST_CASE("load: rest after a host leaves less than rest before it") {
  CHECK(season(3)(idle(1, 1)(2.0)) == exactly(5.5652173913));
  CHECK(idle(1, 1)(season(3)(2.0)) == exactly(4.2666666667));
}

TEST_CASE("load: years until a load is harmless") {
  CHECK(disease::years_to(2.0, 1.0, 3.6) == exactly(3.6));
  CHECK(disease::years_to(2.0, 0.25, 3.6) == exactly(10.8));
  CHECK(disease::years_to(0.2, 0.25, 3.6) == 0.0);
}

TEST_CASE("load: maps compose as functions do, never swap two loads, never make a load negative") {
  CHECK(rc::check("composition, order and sign", [] {
    const LoadMap first = any_event();
    const LoadMap second = any_event();
    const double r = between(0, 16);
    const double more = r + between(0, 4);
    const double expected = second(first(r));
    RC_ASSERT(std::abs(disease::then(first, second)(r) - expected) <= 1e-9 * (1 + expected));
    RC_ASSERT(first(r) <= first(more) + 1e-12);
    RC_ASSERT(first(r) >= 0.0);
    RC_ASSERT(first(0.0) == 0.0);
  }));
}

TEST_CASE("load: a host never carries a load beyond its ceiling") {
  CHECK(rc::check("ceiling", [] {
    const double r = between(0, 16);
    const double after = disease::host_weeks(between(0, 60), 20, between(0, 5), 16)(r);
    RC_ASSERT(after >= r - 1e-12);
    RC_ASSERT(after <= 16.0 + 1e-9);
  }));
}

TEST_CASE("load: a season cut into pieces is the season") {
  CHECK(rc::check("pieces", [] {
    const double whole = between(4, 40);
    const double part = between(0, whole);
    const double doublings = between(0.1, 5);
    const LoadMap pieces = disease::then(disease::host_weeks(part, whole, doublings, 16),
                                         disease::host_weeks(whole - part, whole, doublings, 16));
    const LoadMap once = disease::host_weeks(whole, whole, doublings, 16);
    RC_ASSERT(std::abs(pieces.a - once.a) <= 1e-9 * once.a);
    RC_ASSERT(std::abs(pieces.b - once.b) <= 1e-9 * (1 + once.b));
  }));
}

TEST_CASE("load: a factor between two points of soil pH is on the straight line") {
  catalogue::Pathogen pathogen;
  CHECK(disease::ph_factor(pathogen, 4.0) == 1.0);
  pathogen.ph_factor = {{6.5, 1.0}, {7.2, 0.15}};
  CHECK(disease::ph_factor(pathogen, 6.0) == 1.0);
  CHECK(disease::ph_factor(pathogen, 6.85) == doctest::Approx(0.575));  // halfway
  CHECK(disease::ph_factor(pathogen, 8.0) == doctest::Approx(0.15));
}

TEST_CASE("load: quality of a planned biofumigation, factor by factor") {
  const auto& k = load::embedded_catalogue().coefficients.disease;
  const catalogue::Crop& mustard = crop("mustard-brown");
  disease::Fumigation good;  // first flower, 10 weeks, 4 kg/m2, 15 C, chopped in at once
  const auto base = disease::fumigation_quality(mustard, good, k);
  CHECK(base.q == doctest::Approx(0.8 * 0.6));  // biomass 4/5, average hand 0.6
  CHECK(base.first == disease::Unready::None);

  struct Row {
    disease::Fumigation how;
    double q;
    disease::Unready first;
  };
  disease::Fumigation young = good;
  young.flower = 0.5;
  disease::Fumigation tiny = young;
  tiny.weeks_grown = 4;
  disease::Fumigation woody = good;
  woody.flower = 1.6;
  disease::Fumigation thin = good;
  thin.fresh_kg_m2 = 2.0;
  disease::Fumigation nothing = good;
  nothing.fresh_kg_m2 = 0.9;
  disease::Fumigation lying = good;
  lying.chopped_in = false;
  disease::Fumigation cold = good;
  cold.soil_c = 7;
  const Row rows[] = {{young, 0.6 * 0.48, disease::Unready::None},
                      {tiny, 0.2 * 0.48, disease::Unready::Stage},
                      {woody, 0.2 * 0.48, disease::Unready::Stage},
                      {thin, 0.4 * 0.6, disease::Unready::Biomass},
                      {nothing, 0.0, disease::Unready::Biomass},
                      {lying, 0.1 * 0.48, disease::Unready::NotIncorporated},
                      {cold, 0.5 * 0.48, disease::Unready::ColdSoil}};
  for (const Row& row : rows) {
    const auto quality = disease::fumigation_quality(mustard, row.how, k);
    CHECK(quality.q == doctest::Approx(row.q));
    CHECK(quality.first == row.first);
  }
  CHECK(disease::fumigation_quality(crop("mustard-white"), good, k).first ==
        disease::Unready::Species);
}

TEST_CASE("load: sudangrass works while it is young") {
  const auto& k = load::embedded_catalogue().coefficients.disease;
  disease::Fumigation how;
  how.weeks_grown = 6;
  const double young = disease::fumigation_quality(crop("sorghum-sudan"), how, k).q;
  how.weeks_grown = 12;
  const auto old = disease::fumigation_quality(crop("sorghum-sudan"), how, k);
  CHECK(old.q == doctest::Approx(0.2 * young));
  CHECK(old.first == disease::Unready::Stage);
}
