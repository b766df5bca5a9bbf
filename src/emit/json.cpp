#include "aftercrop/emit/json.h"

#include "emit/json_value.h"

namespace aftercrop::emit {
namespace {

using diagnostic::Diagnostic;

void put_place(Json& row, const diagnostic::Source& source) {
  row["file"] = source.file ? text_value(source.file->name) : Json();
  row["line"] = source.known() ? Json(source.line) : Json();
  row["column"] = source.known() ? Json(source.column) : Json();
}

Json finding_row(const Diagnostic& finding) {
  Json row = Json::object();
  row["id"] = text_value(finding.id);
  row["severity"] = std::string(diagnostic::name(finding.severity));
  row["message"] = text_value(finding.message);
  row["source"] = Json::object();
  put_place(row["source"], finding.source);
  row["bed"] = text_or_null(finding.bed);
  row["week"] = finding.week ? Json(calendar::text(*finding.week)) : Json();
  row["computed"] = finding.measure ? number(finding.measure->computed) : Json();
  row["limit"] = finding.measure ? number(finding.measure->limit) : Json();
  row["unit"] = finding.measure ? text_value(finding.measure->unit) : Json();
  row["related"] = Json::array();
  for (const diagnostic::Related& related : finding.related) {
    Json entry = Json::object();
    entry["message"] = text_value(related.message);
    put_place(entry, related.source);
    row["related"].push_back(entry);
  }
  row["help"] = text_or_null(finding.help);
  row["references"] = Json::array();
  for (const std::string& one : finding.references) row["references"].push_back(text_value(one));
  return row;
}

}  // namespace

std::string check_json(const diagnostic::Diagnostics& findings) {
  Json out = Json::object();
  out["findings"] = Json::array();
  for (const Diagnostic& finding : findings.all()) {
    out["findings"].push_back(finding_row(finding));
  }
  out["counts"] = counts(findings);
  return document(out);
}

}  // namespace aftercrop::emit
