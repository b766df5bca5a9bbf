#include <doctest/doctest.h>

#include <algorithm>

#include "aftercrop/emit/json.h"
#include "aftercrop/emit/ledger_text.h"
#include "diagnostic/text.h"
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

namespace {

std::string account_text(const support::Emitted& made, const emit::LedgerTextOptions& options) {
  return emit::ledger_text(made.loaded.garden, made.loaded.catalogue, made.accounts[0], options);
}

int widest(const std::string& text) {
  int most = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    most = std::max(most, diagnostic::columns_of(std::string_view(text).substr(at, end - at)));
    at = end + 1;
  }
  return most;
}

}  // namespace

TEST_CASE("ledger text: never wider than the terminal, whatever it is asked for") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  for (const int width : {24, 40, 60, 80, 120, 200}) {
    for (const bool lines : {false, true}) {
      emit::LedgerTextOptions options;
      options.width = width;
      options.lines = lines;
      CAPTURE(width);
      CHECK(widest(account_text(made, options)) <= width);
      CHECK(widest(emit::climate_text(made.loaded.garden.site, width)) <= width);
    }
  }
}

TEST_CASE("ledger text: a year on a screen, postings on demand, metric or US") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  emit::LedgerTextOptions options;
  const std::string all = account_text(made, options);
  CHECK(all.find("washed out") != std::string::npos);
  CHECK(all.find(" in 2028: ") != std::string::npos);
  CHECK(all.find("kg N/ha") == std::string::npos);
  CHECK(all.find("nitrogen, g for the whole bed") != std::string::npos);
  options.year = 2027;
  const std::string one = account_text(made, options);
  CHECK(one.find(" in 2028: ") == std::string::npos);
  CHECK(std::count(one.begin(), one.end(), '\n') <= 45);
  options.lines = true;
  CHECK(account_text(made, options).find("kg N/ha") != std::string::npos);
  made.loaded.garden.units = garden::UnitSystem::Us;
  CHECK(account_text(made, options).find("nitrogen, oz for the whole bed") != std::string::npos);
}

TEST_CASE("ledger text: at least three materials, their caution and the days of raw manure") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  const std::string text = account_text(made, {});
  const std::size_t feed = text.find("feed for ");
  REQUIRE(feed != std::string::npos);
  const std::string rest = text.substr(feed, 700);
  CHECK(std::count(rest.begin(), rest.end(), '(') >= 4);  // three ranges and the manure
  CHECK(rest.find("Raw manure only until") != std::string::npos);
  CHECK(text.find("caution: Test the soil first") != std::string::npos);
}

TEST_CASE("ranges: independent amounts add their half-widths as squares") {
  // 10 +- 3 and 20 +- 4: 30 +- 5
  const emit::Span sum = emit::independent_sum({{10, 7, 13}, {20, 16, 24}});
  CHECK(sum.middle == doctest::Approx(30));
  CHECK(sum.low == doctest::Approx(25));
  CHECK(sum.high == doctest::Approx(35));
}

TEST_CASE("ledger csv: a row a posting and a load, nothing a spreadsheet would run") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  const std::string text =
      emit::ledger_csv(made.loaded.garden, made.loaded.catalogue, made.accounts, std::nullopt);
  CHECK(text.starts_with("bed,week,date,account,what,amount,low,high,unit,cause,crop,source\r\n"));
  std::size_t postings = 0;
  std::size_t loads = 0;
  for (const auto& account : made.accounts) {
    postings += account.postings.size();
    loads += account.load_events.size();
  }
  const auto rows = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
  CHECK(rows == 1 + postings + loads);
  CHECK(text.find("\r\n=") == std::string::npos);
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
