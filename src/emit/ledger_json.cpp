#include <algorithm>
#include <array>

#include "aftercrop/emit/json.h"
#include "aftercrop/nitrogen/journal.h"
#include "emit/json_value.h"
#include "emit/ledger_years.h"

namespace aftercrop::emit {
namespace {

constexpr double kM2PerHectare = 10000.0;
constexpr double kGramsPerKg = 1000.0;

Json pools_row(const nitrogen::Pools& pools) {
  const std::array<double, nitrogen::kPools> values = {pools.mineral, pools.fast, pools.tie_up,
                                                       pools.mulch,   pools.slow, pools.crop};
  Json row = Json::object();
  for (std::size_t i = 0; i < values.size(); ++i) {
    row[std::string(nitrogen::kPoolNames[i])] = number(values[i]);
  }
  return row;
}

Json posting_row(const nitrogen::Posting& posting, const catalogue::Catalogue& catalogue) {
  const catalogue::CauseText& cause =
      catalogue.coefficients.nitrogen.causes[static_cast<std::size_t>(posting.cause)];
  Json row = Json::object();
  row["week"] = calendar::text(posting.week);
  row["pool"] = std::string(nitrogen::kPoolNames[static_cast<std::size_t>(posting.pool)]);
  row["kg_per_ha"] = number(posting.kg_per_ha);
  row["cause"] = text_value(cause.words);
  row["source"] = text_value(cause.source);
  const double one = posting.kg_per_ha * cause.low;
  const double other = posting.kg_per_ha * cause.high;
  row["low"] = number(std::min(one, other));
  row["high"] = number(std::max(one, other));
  return row;
}

Json span_row(const Span& span) {
  Json row = Json::object();
  row["kg_per_ha"] = number(span.middle);
  row["low"] = number(span.low);
  row["high"] = number(span.high);
  return row;
}

Json year_row(const YearSum& year, const catalogue::NitrogenCoefficients& k) {
  Json row = Json::object();
  row["year"] = year.year;
  row["opening"] = number(year.opening.mineral);
  row["came_in"] = span_row(came_in(year, k));
  row["went_out"] = span_row(went_out(year, k));
  row["closing"] = number(year.closing.mineral);
  row["short"] = span_row(short_of(year, k));
  row["before_wet_season"] = year.before_wet ? number(*year.before_wet) : Json();
  return row;
}

Json test_row(const ledger::TestLine& test) {
  Json row = Json::object();
  row["week"] = calendar::text(test.week);
  row["expected"] = number(test.expected);
  row["computed"] = number(test.computed);
  row["difference"] = number(test.difference());
  row["tolerance"] = number(test.tolerance);
  row["agrees"] = test.agrees();
  row["other_reading"] = test.disease.known() ? Json() : number(test.other_reading);
  return row;
}

Json nitrogen_part(const ledger::BedAccount& account, const catalogue::Catalogue& catalogue,
                   double area_m2) {
  const double grams = area_m2 / kM2PerHectare * kGramsPerKg;
  Json part = Json::object();
  part["opening"] = pools_row(account.opening);
  part["postings"] = Json::array();
  for (const nitrogen::Posting& posting : account.postings) {
    part["postings"].push_back(posting_row(posting, catalogue));
  }
  part["closing"] = pools_row(account.closing);
  part["short_g"] = number(account.short_kg_ha * grams);
  part["surplus_g"] = number(account.surplus_kg_ha * grams);
  part["years"] = Json::array();
  for (const YearSum& year : sum_by_year(account)) {
    part["years"].push_back(year_row(year, catalogue.coefficients.nitrogen));
  }
  part["tests"] = Json::array();
  for (const ledger::TestLine& test : account.tests) {
    if (!test.disease.known()) part["tests"].push_back(test_row(test));
  }
  return part;
}

std::string_view cause_words(ledger::LoadEvent::Cause cause) {
  static constexpr std::array<std::string_view, 6> kWords = {
      "opening", "host crop", "biofumigation", "sighting", "soil test", "end of the year"};
  return kWords[static_cast<std::size_t>(cause)];
}

Json disease_rows(const ledger::BedAccount& account, const catalogue::Catalogue& catalogue) {
  Json rows = Json::array();
  for (std::size_t i = 0; i < account.tracked.size(); ++i) {
    const catalogue::Pathogen& pathogen = catalogue.pathogen(account.tracked[i]);
    const std::string source = pathogen.sources.empty() ? "" : pathogen.sources.front().text;
    Json row = Json::object();
    row["pathogen"] = text_value(pathogen.id);
    row["scale"] = text_value(pathogen.scale);
    row["opening"] = number(account.load_opening.at(i));
    row["events"] = Json::array();
    for (const ledger::LoadEvent& event : account.load_events) {
      if (event.tracked != i) continue;
      Json entry = Json::object();
      entry["week"] = calendar::text(event.week);
      entry["load"] = number(event.load);
      entry["low"] = event.low < 0.0 ? Json() : number(event.low);
      entry["high"] = event.high < 0.0 ? Json() : number(event.high);
      entry["cause"] = std::string(cause_words(event.cause));
      if (event.crop.known()) {
        entry["cause"] =
            text_value(entry["cause"].get<std::string>() + ": " + catalogue.crop(event.crop).name);
      }
      entry["source"] = text_value(source);
      row["events"].push_back(entry);
    }
    row["closing"] = number(account.load_closing.at(i));
    row["threshold"] = number(pathogen.threshold);
    row["tests"] = Json::array();
    for (const ledger::TestLine& test : account.tests) {
      if (test.disease == account.tracked[i]) row["tests"].push_back(test_row(test));
    }
    rows.push_back(row);
  }
  return rows;
}

}  // namespace

std::string ledger_json(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                        const std::vector<ledger::BedAccount>& accounts) {
  Json out = Json::object();
  out["beds"] = Json::array();
  for (const ledger::BedAccount& account : accounts) {
    const garden::Bed& bed = garden.bed(account.bed);
    Json row = Json::object();
    row["bed"] = text_value(bed.name);
    row["area_m2"] = number(bed.area.value());
    row["nitrogen"] = nitrogen_part(account, catalogue, bed.area.value());
    row["disease"] = disease_rows(account, catalogue);
    out["beds"].push_back(row);
  }
  return document(out);
}

}  // namespace aftercrop::emit
