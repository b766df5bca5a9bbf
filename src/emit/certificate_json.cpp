#include "aftercrop/emit/json.h"
#include "emit/json_value.h"

namespace aftercrop::emit {
namespace {

using calendar::monday;

Json value_terms(const sequencer::Value& value) {
  Json terms = Json::object();
  terms["wants"] = value.wants;
  terms["nitrogen"] = value.nitrogen;
  terms["leached"] = value.leached;
  terms["disease"] = value.disease;
  terms["bare_winter"] = value.bare_winter;
  terms["warnings"] = value.warnings;
  terms["work"] = value.work;
  terms["changes"] = value.changes;
  terms["total"] = value.total();
  return terms;
}

Json prices(const sequencer::Certificate& certificate, const garden::Garden& garden,
            const catalogue::Catalogue& catalogue) {
  Json supplies = Json::array();
  for (const auto& row : certificate.supplies) {
    Json price = Json::object();
    price["crop"] = catalogue.crop(row.crop).id;
    price["from"] = monday(row.weeks.first).text();
    price["to"] = monday(row.weeks.past).text();
    price["per_m2"] = row.per_m2;
    supplies.push_back(price);
  }
  Json roundings = Json::array();
  for (const auto& row : certificate.roundings) {
    Json price = Json::object();
    price["want"] = row.want + 1;
    price["crop"] = catalogue.crop(garden.wants[row.want].crop).id;
    price["unit_m2"] = row.unit_m2;
    price["per_m2"] = row.per_m2;
    roundings.push_back(price);
  }
  Json work = Json::array();
  for (std::size_t week = 0; week < certificate.work.size(); ++week) {
    if (certificate.work[week] == 0.0) continue;
    Json price = Json::object();
    price["week"] = monday(garden.seasons.first + calendar::Weeks(static_cast<int>(week))).text();
    price["per_hour"] = certificate.work[week];
    work.push_back(price);
  }
  Json out = Json::object();
  out["supply"] = supplies;
  out["roundings"] = roundings;
  out["work"] = work;
  return out;
}

Json class_bounds(const sequencer::Certificate& certificate, const garden::Garden& garden,
                  const catalogue::Catalogue& catalogue) {
  Json classes = Json::array();
  for (const auto& one : certificate.classes) {
    Json row = Json::object();
    row["beds"] = Json::array();
    for (const garden::BedId bed : one.beds)
      row["beds"].push_back(text_value(garden.bed(bed).name));
    row["per_bed"] = one.per_bed;
    row["fees"] = Json::array();
    for (const auto& fee : one.fees) {
      Json paid = Json::object();
      paid["group"] = catalogue.group(fee.group).id;
      paid["season"] = fee.season;
      paid["fee"] = fee.fee;
      row["fees"].push_back(paid);
    }
    classes.push_back(row);
  }
  return classes;
}

}  // namespace

std::string certificate_json(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                             const sequencer::Outcome& outcome) {
  Json out = Json::object();
  out["certificate"] = text_value(garden.name);
  out["made_by"] = "aftercrop " AFTERCROP_VERSION;
  out["value"] = value_terms(outcome.value);
  out["bound"] = outcome.certificate.bound;
  out["prices"] = prices(outcome.certificate, garden, catalogue);
  out["classes"] = class_bounds(outcome.certificate, garden, catalogue);
  return document(out);
}

}  // namespace aftercrop::emit
