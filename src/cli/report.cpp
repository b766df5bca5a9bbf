#include "cli/report.h"

#include <fmt/format.h>

#include <map>
#include <tuple>
#include <vector>

#include "aftercrop/diagnostic/render.h"
#include "cli/terminal.h"

namespace aftercrop::cli {
namespace {

using diagnostic::Diagnostic;
using diagnostic::Severity;

constexpr std::size_t kOthersTold = 5;

/// Findings of one kind about one place: the first is shown whole, the others by their message.
struct Group {
  const Diagnostic* first = nullptr;
  std::vector<std::string> others;
};

using Key = std::tuple<std::string, std::string, int, int>;

Key key_of(const Diagnostic& finding) {
  // Findings about no place of a file are grouped by their words.
  if (!finding.source.known()) return {finding.id, finding.message, 0, 0};
  return {finding.id, finding.source.file->name, finding.source.line, finding.source.column};
}

std::vector<Group> groups(const diagnostic::Diagnostics& findings, Severity severity) {
  std::vector<Group> list;
  std::map<Key, std::size_t> places;
  for (const Diagnostic& finding : findings.all()) {
    if (finding.severity != severity) continue;
    const auto [entry, is_new] = places.try_emplace(key_of(finding), list.size());
    if (is_new) {
      list.push_back({&finding, {}});
      continue;
    }
    Group& group = list[entry->second];
    if (finding.message != group.first->message) group.others.push_back(finding.message);
  }
  return list;
}

std::string text_of(const Group& group, const diagnostic::RenderStyle& style) {
  std::string text = diagnostic::render_full(*group.first, style);
  if (!text.empty() && text.back() != '\n') text += '\n';
  std::size_t told = 0;
  for (const std::string& message : group.others) {
    if (told == kOthersTold) {
      text += fmt::format("  and {} like it here\n", group.others.size() - told);
      break;
    }
    text += fmt::format("  also: {}\n", diagnostic::printable(message));
    ++told;
  }
  return text;
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
    for (const Group& group : groups(sorted, severity)) print(stream, text_of(group, style));
  }
}

}  // namespace aftercrop::cli
