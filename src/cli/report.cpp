#include "cli/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

#include "aftercrop/diagnostic/render.h"
#include "cli/terminal.h"
#include "diagnostic/text.h"

namespace aftercrop::cli {
namespace {

using diagnostic::Diagnostic;
using diagnostic::Severity;

constexpr std::size_t kOthersTold = 5;

/// Findings of one cause: the first is shown whole, the others by their place.
struct Group {
  const Diagnostic* first = nullptr;
  std::vector<const Diagnostic*> others;
};

using Key = std::tuple<std::string, std::string, int, int>;

Key key_of(const Diagnostic& finding) {
  if (!finding.cause.empty()) return {finding.id, finding.cause, -1, 0};
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
    } else {
      list[entry->second].others.push_back(&finding);
    }
  }
  return list;
}

/// "N1.2 from 2028-05-15" of a finding about a bed, else its message.
std::string place_of(const Diagnostic& finding) {
  if (finding.bed.empty()) return finding.message;
  if (!finding.week) return finding.bed;
  return fmt::format("{} from {}", finding.bed, calendar::monday(*finding.week).text());
}

std::string again_of(const Group& group, const diagnostic::RenderStyle& style) {
  std::string places;
  std::string last = place_of(*group.first);
  std::size_t told = 0;
  std::size_t more = 0;
  for (const Diagnostic* other : group.others) {
    const std::string place = place_of(*other);
    if (place == last || (other->bed.empty() && other->message == group.first->message)) continue;
    last = place;
    if (told == kOthersTold) {
      ++more;
      continue;
    }
    places += (places.empty() ? "" : ", ") + place;
    ++told;
  }
  if (told == 0) return {};
  if (more > 0) places += fmt::format(" and {} more", more);
  const std::string text = fmt::format(
      "the same {} more: {}", told + more == 1 ? "once" : fmt::format("{} times", told + more),
      diagnostic::printable(places));
  std::string out;
  for (const std::string& line : diagnostic::fold(text, style.width - 4)) {
    out += (out.empty() ? "  " : "    ") + line + "\n";
  }
  return out;
}

std::string text_of(const Group& group, const diagnostic::RenderStyle& style) {
  std::string text = diagnostic::render_full(*group.first, style);
  if (!text.empty() && text.back() != '\n') text += '\n';
  return text + again_of(group, style);
}

/// Groups in the order of their first beds, each bed's together.
void by_bed(std::vector<Group>& list) {
  std::map<std::string, std::size_t> rank;
  for (const Group& group : list) rank.try_emplace(group.first->bed, rank.size());
  std::stable_sort(list.begin(), list.end(), [&](const Group& a, const Group& b) {
    return rank[a.first->bed] < rank[b.first->bed];
  });
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

std::string cause_text(const diagnostic::Diagnostics& findings) {
  std::map<std::string, int> kinds;
  for (const Diagnostic& finding : findings.all()) {
    if (finding.severity == Severity::Note) continue;
    ++kinds[finding.id];
  }
  std::string text = count_text(findings);
  if (kinds.empty()) return text;
  std::vector<std::pair<std::string, int>> order(kinds.begin(), kinds.end());
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  text += ": ";
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (i == kOthersTold) return text + fmt::format(" and {} more kinds", order.size() - i);
    text += fmt::format("{}{} {}", i == 0 ? "" : ", ", order[i].first, order[i].second);
  }
  return text;
}

void print_findings(std::FILE* stream, const diagnostic::Diagnostics& findings,
                    const Shared& shared) {
  diagnostic::Diagnostics sorted = findings;
  sorted.sort();
  const diagnostic::RenderStyle style = style_for(stream, shared.color);
  for (const Severity severity : {Severity::Error, Severity::Warning, Severity::Note}) {
    if (shared.quiet && severity != Severity::Error) continue;
    std::vector<Group> list = groups(sorted, severity);
    by_bed(list);
    for (const Group& group : list) print(stream, text_of(group, style));
  }
}

}  // namespace aftercrop::cli
