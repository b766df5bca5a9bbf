#include <doctest/doctest.h>

#include <algorithm>

#include "aftercrop/emit/json.h"
#include "aftercrop/emit/ledger_text.h"
#include "emit/amounts.h"
#include "emit/ledger_years.h"
#include "support/emitted.h"

using namespace aftercrop;

TEST_CASE("amounts: two digits, never a negative nought") {
  struct Row {
    double value;
    const char* text;
  };
  const Row rows[] = {{0.0, "0"},     {-0.0, "0"},       {1340.0, "1300"}, {12.4, "12"},
                      {9.96, "10.0"}, {0.0123, "0.012"}, {-3.14, "-3.1"},  {0.00000001, "0"}};
  for (const Row& row : rows) {
    CAPTURE(row.value);
    CHECK(emit::two_digits(row.value) == row.text);
  }
}

TEST_CASE("amounts: nitrogen of a bed in grams and ounces") {
  garden::Bed bed;
  bed.area = units::SquareMetres(5.0);
  // 40 kg/ha = 4 g/m2; 4 x 5 = 20 g = 20 / 28.349523 oz
  CHECK(emit::bed_amount(40.0, bed, garden::UnitSystem::Metric) == doctest::Approx(20.0));
  CHECK(emit::bed_amount(40.0, bed, garden::UnitSystem::Us) == doctest::Approx(0.70548));
}

TEST_CASE("ledger by year: years join up, and end at the account's closing") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  for (const ledger::BedAccount& account : made.accounts) {
    const auto years = emit::sum_by_year(account);
    REQUIRE(years.size() >= 2);
    CHECK(years.front().opening.mineral == doctest::Approx(account.opening.mineral));
    CHECK(years.back().closing.mineral == doctest::Approx(account.closing.mineral));
    for (const emit::YearSum& year : years) {
      CAPTURE(year.year);
      double balance = year.opening.mineral;
      for (const auto& [cause, amount] : year.mineral) balance += amount;
      CHECK(balance == doctest::Approx(year.closing.mineral).epsilon(1e-9));
    }
  }
}

TEST_CASE("ledger text: at most 80 columns, one year on demand, postings on demand") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  emit::LedgerTextOptions options;
  const auto text = [&] {
    return emit::ledger_text(made.loaded.garden, made.loaded.catalogue, made.accounts[0], options);
  };
  const std::string brief = text();
  for (std::size_t at = 0; at < brief.size(); at = brief.find('\n', at) + 1) {
    const std::string line = brief.substr(at, brief.find('\n', at) - at);
    CAPTURE(line);
    CHECK(line.size() <= 80);
  }
  CHECK(brief.find("leached by drainage") != std::string::npos);
  CHECK(brief.find("2028") != std::string::npos);
  CHECK(brief.find("kg N/ha") == std::string::npos);
  options.lines = true;
  CHECK(text().find("kg N/ha") != std::string::npos);
  options.lines = false;
  options.year = 2027;
  CHECK(text().find("  2028\n") == std::string::npos);
}

TEST_CASE("json: keys of the accounts and findings, valid UTF-8, no NaN") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  const std::string accounts =
      emit::ledger_json(made.loaded.garden, made.loaded.catalogue, made.accounts);
  for (const char* key :
       {"\"beds\"", "\"area_m2\"", "\"opening\"", "\"postings\"", "\"kg_per_ha\"", "\"closing\"",
        "\"short_g\"", "\"surplus_g\"", "\"disease\"", "\"pathogen\"", "\"scale\""}) {
    CAPTURE(std::string(key));
    CHECK(accounts.find(key) != std::string::npos);
  }
  diagnostic::Diagnostics findings;
  diagnostic::Diagnostic& finding =
      findings.error("family-break", "bytes that are no text: \xFF\xC3(", {});
  finding.bed = std::string("A");
  finding.measure = diagnostic::Measure{0.0 / 1.0, 2.0, "seasons"};
  const std::string checked = emit::check_json(findings);
  CHECK(checked.find("\xFF") == std::string::npos);
  CHECK(checked.find("\"error\": 1") != std::string::npos);
  CHECK(checked.find("\"unit\": \"seasons\"") != std::string::npos);
  const std::string rows = emit::crops_json(
      made.loaded.catalogue,
      {*made.loaded.catalogue.find_crop("tomato"), *made.loaded.catalogue.find_crop("rye")});
  CHECK(rows.find("\"id\": \"rye\"") != std::string::npos);
  CHECK(rows.find("\"sources\"") != std::string::npos);
}

TEST_CASE("plan json: keys in their order, an unknown bound is null") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  sequencer::Outcome outcome;
  outcome.plan = made.plan;
  outcome.wants.push_back({0, 1.5, "no \"land\""});
  const std::string text =
      emit::plan_json(made.loaded.garden, made.loaded.catalogue, outcome, said);
  std::size_t at = 0;
  for (const char* key :
       {"\"plan\"", "\"value\"", "\"bound\": null", "\"gap\": null", "\"seconds\"",
        "\"stopped_by\"", "\"wants\"", "\"met\": 1.5", "\"nitrogen\"", "\"findings\""}) {
    CAPTURE(std::string(key));
    const std::size_t found = text.find(key, at);
    CHECK(found != std::string::npos);
    if (found != std::string::npos) at = found;
  }
}
