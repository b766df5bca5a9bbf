#include "aftercrop/emit/explain.h"
#include "emit/explain_rows.h"
#include "emit/json_value.h"

namespace aftercrop::emit {
namespace {

Json option_row(const explain::Option& option, const catalogue::Catalogue& catalogue) {
  Json row = Json::object();
  row["crop"] = text_value(catalogue.crop(option.planting.crop).id);
  row["from"] = option.planting.from.text();
  row["to"] = option.planting.to.text();
  row["ending"] = std::string(catalogue::name(option.planting.ending));
  row["allowed"] = option.allowed;
  row["value_change"] = number(option.value_change);
  row["nitrogen_change_g"] = number(option.nitrogen_change_g);
  row["findings"] = Json::array();
  for (const diagnostic::Diagnostic& finding : option.findings) {
    Json entry = Json::object();
    entry["id"] = text_value(finding.id);
    entry["severity"] = std::string(diagnostic::name(finding.severity));
    entry["message"] = text_value(finding.message);
    entry["week"] = finding.week ? Json(calendar::text(*finding.week)) : Json();
    row["findings"].push_back(entry);
  }
  return row;
}

}  // namespace

std::string explain_json(const Explained& explained) {
  const explain::Explanation& told = explained.told;
  Json out = Json::object();
  out["bed"] = text_value(explained.garden.bed(told.bed).name);
  out["week"] = calendar::text(told.week);
  out["stands"] = Json();
  out["from"] = Json();
  out["to"] = Json();
  out["latest_start"] = Json();
  if (told.stands != nullptr) {
    out["stands"] = text_value(explained.catalogue.crop(told.stands->crop).id);
    out["from"] = told.stands->from.text();
    out["to"] = told.stands->to.text();
    out["latest_start"] = latest_of(explained).day.text();
  }
  out["plan_value"] = number(told.plan_value);
  out["share_of_value"] = number(told.share_of_value);
  out["reasons"] = Json::array();
  for (const explain::Reason& reason : told.reasons) {
    Json entry = Json::object();
    entry["kind"] = std::string(explain::name(reason.kind));
    entry["text"] = text_value(words_of(reason, explained.garden.units));
    out["reasons"].push_back(entry);
  }
  out["asked"] = told.asked ? option_row(*told.asked, explained.catalogue) : Json();
  out["others"] = Json::array();
  for (const explain::Option& option : told.others) {
    out["others"].push_back(option_row(option, explained.catalogue));
  }
  return document(out);
}

}  // namespace aftercrop::emit
