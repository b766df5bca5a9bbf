#include "aftercrop/emit/json.h"
#include "emit/json_value.h"

namespace aftercrop::emit {
namespace {

using calendar::monday;

Json date_or_null(const std::optional<calendar::Date>& date) {
  return date ? Json(date->text()) : Json();
}

Json planting_row(const garden::Planting& planting, const garden::Garden& garden,
                  const catalogue::Catalogue& catalogue) {
  Json row = Json::object();
  row["bed"] = text_value(garden.bed(planting.bed).name);
  row["crop"] = text_value(catalogue.crop(planting.crop).id);
  row["from"] = planting.from.text();
  row["to"] = planting.to.text();
  row["raised"] = date_or_null(planting.raised);
  row["harvest"] = Json();
  if (planting.harvest) {
    row["harvest"] = Json::array({planting.harvest->first.text(), planting.harvest->past.text()});
  }
  row["ending"] = std::string(catalogue::name(planting.ending));
  row["kept"] = planting.kept;
  Json partners = Json::array();
  for (const garden::Partner& partner : planting.partners) {
    partners.push_back(text_value(catalogue.crop(partner.crop).id));
  }
  row["partners"] = partners;
  return row;
}

Json plan_rows(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
               const garden::Plan& plan) {
  Json out = Json::object();
  out["name"] = text_value(plan.name.empty() ? garden.name : plan.name);
  out["made_by"] = "aftercrop " AFTERCROP_VERSION;
  out["plantings"] = Json::array();
  for (const garden::Planting& planting : plan.plantings) {
    out["plantings"].push_back(planting_row(planting, garden, catalogue));
  }
  return out;
}

Json want_rows(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
               const std::vector<sequencer::WantResult>& results) {
  Json rows = Json::array();
  for (const sequencer::WantResult& result : results) {
    const garden::Want& want = garden.wants.at(result.want);
    Json row = Json::object();
    row["crop"] = text_value(catalogue.crop(want.crop).id);
    row["from"] = monday(want.window.first).text();
    row["to"] = monday(want.window.past).text();
    row["unit"] = std::string(garden::name(want.unit));
    row["wanted"] = number(want.amount);
    row["met"] = number(result.met);
    row["why"] = text_value(result.why);
    rows.push_back(row);
  }
  return rows;
}

Json change_rows(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const std::vector<explain::PlanChange>& changes) {
  Json rows = Json::array();
  const auto stand = [&](const garden::Planting* one) {
    if (one == nullptr) return Json();
    Json row = Json::object();
    row["crop"] = text_value(catalogue.crop(one->crop).id);
    row["from"] = one->from.text();
    row["to"] = one->to.text();
    return row;
  };
  for (const explain::PlanChange& change : changes) {
    Json row = Json::object();
    row["bed"] = text_value(garden.bed(change.bed).name);
    row["was"] = stand(change.was);
    row["now"] = stand(change.now);
    row["why"] = text_value(change.why);
    rows.push_back(row);
  }
  return rows;
}

}  // namespace

std::string plan_json(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                      const sequencer::Outcome& outcome, const diagnostic::Diagnostics& findings,
                      const std::vector<explain::PlanChange>* changes) {
  Json out = Json::object();
  out["plan"] = plan_rows(garden, catalogue, outcome.plan);
  out["value"] = number(outcome.value.total());
  out["bound"] = outcome.bound ? number(*outcome.bound) : Json();
  const auto gap = outcome.gap();
  out["gap"] = gap ? number(*gap) : Json();
  out["seconds"] = number(outcome.seconds);
  out["stopped_by"] = text_value(outcome.stopped_by);
  out["wants"] = want_rows(garden, catalogue, outcome.wants);
  out["nitrogen"] = Json::object();
  out["nitrogen"]["bought_kg"] = number(outcome.bought_kg);
  out["nitrogen"]["leached_kg"] = number(outcome.leached_kg);
  out["nitrogen"]["fixed_kg"] = number(outcome.fixed_kg);
  out["findings"] = counts(findings);
  if (changes != nullptr) out["changes"] = change_rows(garden, catalogue, *changes);
  return document(out);
}

}  // namespace aftercrop::emit
