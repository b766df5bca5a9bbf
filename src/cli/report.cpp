#include "cli/report.h"

#include <fmt/format.h>

#include <map>
#include <utility>
#include <vector>

#include "aftercrop/diagnostic/render.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

using diagnostic::Diagnostic;
using diagnostic::Severity;

/// A finding and how many more there are in the same words.
struct Said {
  const Diagnostic* finding = nullptr;
  int more = 0;
};

std::vector<Said> said_once(const diagnostic::Diagnostics& findings, Severity severity) {
  std::vector<Said> list;
  std::map<std::pair<std::string, std::string>, std::size_t> places;
  for (const Diagnostic& finding : findings.all()) {
    if (finding.severity != severity) continue;
    const auto [entry, is_new] = places.try_emplace({finding.id, finding.message}, list.size());
    if (is_new) {
      list.push_back({&finding, 0});
    } else {
      ++list[entry->second].more;
    }
  }
  return list;
}

}  // namespace

std::string counted(int number, const char* thing) {
  return fmt::format("{} {}{}", number, thing, number == 1 ? "" : "s");
}

std::string count_text(const diagnostic::Diagnostics& findings) {
  std::string text;
  for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
    const int count = findings.count(severity);
    if (count == 0) continue;
    if (!text.empty()) text += ", ";
    text += counted(count, std::string(diagnostic::name(severity)).c_str());
  }
  return text.empty() ? "no findings" : text;
}

void print_findings(std::FILE* stream, const diagnostic::Diagnostics& findings,
                    const Shared& shared) {
  diagnostic::Diagnostics sorted = findings;
  sorted.sort();
  const diagnostic::RenderStyle style = style_for(stream, shared.color);
  for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
    if (shared.quiet && severity != Severity::Error) continue;
    for (const Said& said : said_once(sorted, severity)) {
      std::string text = diagnostic::render_full(*said.finding, style);
      if (!text.empty() && text.back() != '\n') text += '\n';
      if (said.more > 0) text += fmt::format("  and the same in {}\n", counted(said.more, "more place"));
      print(stream, text);
    }
  }
}

}  // namespace aftercrop::cli
