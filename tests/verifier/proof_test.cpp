#include "proof.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "aftercrop/emit/json.h"
#include "aftercrop/emit/plan_yaml.h"
#include "aftercrop/sequencer/sequence.h"
#include "support/reading.h"

using namespace aftercrop;
using nlohmann::json;

namespace {

/// A garden with its plan and certificate as files would hold them.
struct Case {
  load::LoadedGarden loaded;
  std::string plan;
  json certificate;
};

std::string demo_text(const std::string& name) {
  std::ifstream in(std::string(AFTERCROP_ROOT) + "/seasons/" + name + "/garden.yaml");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

Case planned(const std::string& garden) {
  diagnostic::Diagnostics said;
  auto loaded = load::load_garden("garden.yaml", load::embedded_catalogue(),
                                  support::reader({{"garden.yaml", garden}}), said);
  REQUIRE(loaded);
  const ledger::SiteClimates climates(loaded->garden, loaded->catalogue);
  sequencer::Stop stop;
  stop.within_seconds = 3600.0;
  stop.gap = 0.9;
  stop.max_rounds = 8;
  const auto outcome = sequencer::sequence(loaded->garden, loaded->catalogue, climates, stop);
  const std::string text = emit::certificate_json(loaded->garden, loaded->catalogue, outcome);
  std::string plan = emit::plan_yaml(loaded->garden, loaded->catalogue, outcome.plan);
  return {std::move(*loaded), std::move(plan), json::parse(text)};
}

const Case& tannery() {
  static const Case kCase = planned(demo_text("tannery-lane"));
  return kCase;
}

/// Nightshades and cabbages are wanted each year, and the beds are too few for their breaks.
const Case& breaks() {
  static const Case kCase = planned(
      "garden: breaks\nsite: {climate: minneapolis}\nunits: metric\n"
      "seasons: {from: 2027-03-01, years: 4}\nbeds:\n"
      "  - {beds: [A], length: 6 m, width: 1 m, soil: loam, organic_matter: 4 %, ph: 6.5}\n"
      "  - {beds: [B], length: 5 m, width: 1 m, soil: loam, organic_matter: 4 %, ph: 6.5}\n"
      "wants:\n"
      "  - {crop: potato, amount: 6 m2, harvest: [07-01, 10-10], years: each}\n"
      "  - {crop: tomato, amount: 7 m2, harvest: [07-01, 10-10], years: each, weight: 2}\n");
  return kCase;
}

verifier::Proof proof_of(const Case& one, double within = 20.0) {
  diagnostic::Diagnostics said;
  const auto plan =
      load::load_plan("plan.yaml", one.loaded, support::reader({{"plan.yaml", one.plan}}), said);
  REQUIRE(plan);
  const auto claims = verifier::read_claims(one.certificate.dump());
  REQUIRE(std::holds_alternative<verifier::Claims>(claims));
  double clock = 0.0;  // a second for each thousand looks at it
  return verifier::prove(one.loaded, *plan, std::get<verifier::Claims>(claims), within,
                         [&] { return clock += 0.001; });
}

/// Adds to a term and to the total.
void change_term(json& certificate, const char* term, double by) {
  json& value = certificate["value"];
  value[term] = value[term].get<double>() + by;
  const double sign = std::string(term) == "wants" ? 1.0 : -1.0;
  value["total"] = value["total"].get<double>() + sign * by;
}

/// The sum that the bound is, by the certificate's own numbers as far as `beds` changes it.
void raise_bound(json& certificate, double by) {
  certificate["bound"] = certificate["bound"].get<double>() + by * (1.0 + 1e-6);
}

void change_class(json& certificate, std::size_t place, double factor) {
  json& row = certificate["classes"][place];
  const double old = row["per_bed"];
  // A class that its prices pay for in full is worth nothing more: a share of that is no change.
  row["per_bed"] = old < 1e-3 ? old + factor - 1.0 : old * factor;
  raise_bound(certificate,
              static_cast<double>(row["beds"].size()) * (row["per_bed"].get<double>() - old));
}

}  // namespace

TEST_CASE("verifier: certificates are proved") {
  const Case roof = planned(demo_text("harbour-roof"));
  for (const Case* one : {&tannery(), &roof, &breaks()}) {
    CAPTURE(one->loaded.garden.name);
    const auto proof = proof_of(*one);
    for (const std::string& line : proof.refuted) {
      CAPTURE(line);
      CHECK(line.empty());
    }
    CHECK(proof.open_classes == 0);
    CHECK(proof.value <= proof.bound);
    CHECK(proof.bound == doctest::Approx(one->certificate["bound"].get<double>()).epsilon(1e-9));
  }
}

TEST_CASE("verifier: a term that was changed is refused, the total made to fit") {
  for (const char* term :
       {"wants", "nitrogen", "leached", "disease", "bare_winter", "warnings", "work", "changes"}) {
    CAPTURE(std::string(term));
    for (const double by : {0.01, -0.01}) {
      Case changed = tannery();
      change_term(changed.certificate, term, by);
      CHECK_FALSE(proof_of(changed).refuted.empty());
    }
  }
  Case changed = tannery();
  changed.certificate["value"]["total"] = changed.certificate["value"]["total"].get<double>() + 0.1;
  CHECK_FALSE(proof_of(changed).refuted.empty());
}

TEST_CASE("verifier: a bound that is not the sum is refused, a rounding margin at most allowed") {
  for (const double factor : {0.99, 1.0 - 1e-6, 1.0 + 1e-6, 1.01}) {
    CAPTURE(factor);
    Case changed = tannery();
    changed.certificate["bound"] = changed.certificate["bound"].get<double>() * factor;
    CHECK_FALSE(proof_of(changed).refuted.empty());
  }
}

TEST_CASE("verifier: a class bound far below what a bed earns is refuted by a path") {
  Case changed = breaks();
  const double old = changed.certificate["classes"][0]["per_bed"];
  json& bound = changed.certificate["classes"][0]["per_bed"];
  bound = -1024.0;  // on the scale of class bounds
  raise_bound(changed.certificate, -1024.0 - old);
  const auto refuted = proof_of(changed).refuted;
  REQUIRE_FALSE(refuted.empty());
  CHECK(refuted.front().find("yet this path earns") != std::string::npos);
}

TEST_CASE("verifier: a class bound that was changed is refused, the bound made to fit") {
  for (std::size_t place = 0; place < 4; ++place) {
    // Round shares of a bound may be steps of its scale, and a lower bound true: not these.
    for (const double factor : {0.5101, 0.9001, 0.9901, 1.0101, 1.9}) {
      CAPTURE(place);
      CAPTURE(factor);
      Case changed = tannery();
      change_class(changed.certificate, place, factor);
      CHECK_FALSE(proof_of(changed, 0.1).holds());
    }
  }
}

TEST_CASE("verifier: a price that was changed is refused") {
  const std::size_t prices = tannery().certificate["prices"]["supply"].size();
  REQUIRE(prices > 20);
  for (std::size_t place = 0; place < prices; place += prices / 8) {
    CAPTURE(place);
    for (const double by : {0.001, -0.001, 1.0}) {
      Case changed = tannery();
      json& price = changed.certificate["prices"]["supply"][place]["per_m2"];
      price = price.get<double>() + by;
      CHECK_FALSE(proof_of(changed, 0.1).holds());
    }
  }
}

TEST_CASE("verifier: a fee that was changed is refused") {
  std::size_t fees = 0;
  for (std::size_t g = 0; g < breaks().certificate["classes"].size(); ++g) {
    for (std::size_t f = 0; f < breaks().certificate["classes"][g]["fees"].size(); ++f, ++fees) {
      CAPTURE(g);
      CAPTURE(f);
      Case changed = breaks();
      json& fee = changed.certificate["classes"][g]["fees"][f]["fee"];
      fee = fee.get<double>() * 1.01;
      CHECK_FALSE(proof_of(changed, 0.1).holds());
    }
  }
  CHECK(fees > 0);
}

TEST_CASE("verifier: a rounding that was changed is refused") {
  const std::size_t rows = breaks().certificate["prices"]["roundings"].size();
  REQUIRE(rows > 0);
  for (std::size_t place = 0; place < rows; ++place) {
    CAPTURE(place);
    for (const char* key : {"per_m2", "unit_m2", "want"}) {
      for (const double by : {1.0, -1.0, 0.001}) {
        CAPTURE(std::string(key));
        CAPTURE(by);
        Case changed = breaks();
        json& number = changed.certificate["prices"]["roundings"][place][key];
        number = number.get<double>() + by;
        const auto claims = verifier::read_claims(changed.certificate.dump());
        const bool readable = std::holds_alternative<verifier::Claims>(claims);
        CHECK_FALSE((readable && proof_of(changed, 0.1).holds()));
      }
    }
  }
}

TEST_CASE("verifier: beds that changed their class, weeks that changed their price are refused") {
  Case moved = tannery();
  json& classes = moved.certificate["classes"];
  std::swap(classes[0]["beds"][0], classes[1]["beds"][0]);
  CHECK_FALSE(proof_of(moved).refuted.empty());

  Case twice = tannery();
  twice.certificate["classes"][0]["beds"][0] = twice.certificate["classes"][0]["beds"][1];
  CHECK_FALSE(proof_of(twice).refuted.empty());

  Case week = tannery();
  week.certificate["prices"]["supply"][0]["from"] = "2028-01-17";
  CHECK_FALSE(proof_of(week).refuted.empty());

  Case season = breaks();
  for (json& row : season.certificate["classes"]) {
    for (json& fee : row["fees"]) fee["season"] = fee["season"].get<int>() + 20;
  }
  CHECK_FALSE(proof_of(season, 0.1).refuted.empty());
}

TEST_CASE("verifier: a plan whose dates were changed is refused") {
  const std::string plan = tannery().plan;
  std::size_t from = plan.find("harvest: [");
  REQUIRE(from != std::string::npos);
  int changed_dates = 0;
  for (int i = 0; i < 3 && from != std::string::npos; ++i) {
    const std::size_t at = from + std::string("harvest: [").size();
    const auto date = calendar::Date::parse(plan.substr(at, 10));
    REQUIRE(date);
    Case changed = tannery();
    changed.plan.replace(at, 10, date->plus_days(7).text());
    CHECK_FALSE(proof_of(changed).refuted.empty());
    ++changed_dates;
    from = plan.find("harvest: [", at);
  }
  CHECK(changed_dates == 3);
}

TEST_CASE("verifier: what is no certificate is told from one that is wrong") {
  for (const char* text : {"", "[]", "{}", "{\"certificate\": 3}"}) {
    CAPTURE(std::string(text));
    CHECK(std::holds_alternative<std::string>(verifier::read_claims(text)));
  }
  json broken = tannery().certificate;
  broken["classes"][0].erase("per_bed");
  CHECK(std::holds_alternative<std::string>(verifier::read_claims(broken.dump())));
}
