#include "emit/json_value.h"

#include <cmath>

#include "diagnostic/text.h"

namespace aftercrop::emit {

Json text_value(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    if (next.code == 0xFFFD && next.bytes == 1) {
      out += "\xEF\xBF\xBD";
    } else {
      out.append(text.substr(at, next.bytes));
    }
    at += next.bytes;
  }
  return Json(out);
}

Json text_or_null(std::string_view text) { return text.empty() ? Json() : text_value(text); }

Json number(double value) {
  if (!std::isfinite(value)) return {};
  return Json(value + 0.0);  // never -0.0
}

Json sources(const std::vector<catalogue::Citation>& citations) {
  Json list = Json::array();
  for (const catalogue::Citation& one : citations) {
    Json entry = Json::object();
    entry["topic"] = text_value(one.topic);
    entry["text"] = text_value(one.text);
    entry["grade"] = text_value(one.grade);
    list.push_back(entry);
  }
  return list;
}

Json counts(const diagnostic::Diagnostics& findings) {
  Json out = Json::object();
  using diagnostic::Severity;
  for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
    out[std::string(diagnostic::name(severity))] = findings.count(severity);
  }
  return out;
}

std::string document(const Json& json) { return json.dump(2) + "\n"; }

}  // namespace aftercrop::emit
