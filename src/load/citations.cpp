#include "load/citations.h"

#include <algorithm>
#include <array>
#include <utility>

#include "load/fields.h"

namespace aftercrop::load {
namespace {

using catalogue::Citation;
using diagnostic::Diagnostics;

/// Grades of trust, and what is printed where no work is named.
struct Grade {
  std::string_view word;
  std::string_view text;
};
constexpr std::array<Grade, 5> kGrades = {{{"published", "published figure"},
                                           {"common practice", "habit of the trade"},
                                           {"from memory", "recalled, not looked up"},
                                           {"derived", "computed from other figures"},
                                           {"our choice", "choice of this catalogue"}}};

const Grade* grade_of(std::string_view word) {
  const auto found = std::find_if(kGrades.begin(), kGrades.end(),
                                  [&](const Grade& grade) { return grade.word == word; });
  return found == kGrades.end() ? nullptr : found;
}

const Citation* entry_of(const std::vector<Citation>& bibliography, std::string_view key) {
  const auto found = std::lower_bound(
      bibliography.begin(), bibliography.end(), key,
      [](const Citation& entry, std::string_view wanted) { return entry.topic < wanted; });
  return found != bibliography.end() && found->topic == key ? &*found : nullptr;
}

class SourceReader {
 public:
  SourceReader(const std::vector<Citation>& bibliography, Diagnostics& out)
      : bibliography_(&bibliography), out_(&out) {}

  std::vector<Citation> items(const Node& node, const std::string& topic) {
    std::vector<Citation> found;
    for (const Node* one : list_of(node)) item(*one, topic, found);
    return found;
  }

 private:
  void item(const Node& node, const std::string& topic, std::vector<Citation>& found) {
    if (node.is_map()) return graded(node, topic, found);
    if (!node.is_scalar() || node.text.empty()) {
      out_->error("wrong-shape", "a source is a text, or a grade with a text", node.source,
                  "write `source: author, year, title`");
      return;
    }
    if (const Grade* grade = grade_of(node.text)) {
      found.push_back({topic, std::string(grade->text), std::string(grade->word)});
    } else if (const Citation* entry = entry_of(*bibliography_, node.text)) {
      found.push_back({topic, entry->text, entry->grade});
    } else if (node.text.find(' ') != std::string::npos) {
      found.push_back({topic, node.text, ""});
    } else {
      unknown(node);
    }
  }

  void unknown(const Node& node) {
    std::vector<std::string> known;
    for (const Citation& entry : *bibliography_) known.push_back(entry.topic);
    report_unknown("unknown-source", "a source that is known by one word", node, known, *out_);
  }

  void graded(const Node& node, const std::string& topic, std::vector<Citation>& found) {
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
      const Grade* grade = grade_of(node.keys[i]);
      if (grade == nullptr) {
        out_->error("unknown-grade", "\"" + node.keys[i] + "\" is not a grade of trust",
                    node.key_sources[i],
                    "one of: published, common practice, from memory, derived, our choice");
        continue;
      }
      const auto text = read_text(node.items[i], "a source", *out_);
      if (text) found.push_back({topic, *text, std::string(grade->word)});
    }
  }

  const std::vector<Citation>* bibliography_;
  Diagnostics* out_;
};

void replace_topic(std::vector<Citation>& all, const std::string& topic,
                   std::vector<Citation> found) {
  all.erase(std::remove_if(all.begin(), all.end(),
                           [&](const Citation& one) { return one.topic == topic; }),
            all.end());
  for (Citation& one : found) all.push_back(std::move(one));
}

bool by_topic(const Node& node) {
  return node.is_map() && !node.keys.empty() && grade_of(node.keys.front()) == nullptr;
}

}  // namespace

void read_bibliography(const Node& node, std::vector<Citation>& bibliography, Diagnostics& out) {
  if (!node.is_map()) {
    out.error("wrong-shape", "citations must be a table of keys", node.source,
              "write `key: {published: author, year, title}`");
    return;
  }
  SourceReader reader(bibliography, out);
  std::vector<Citation> entries;
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    for (Citation& entry : reader.items(node.items[i], node.keys[i])) {
      entries.push_back(std::move(entry));
    }
  }
  for (Citation& entry : entries) replace_topic(bibliography, entry.topic, {entry});
  std::sort(bibliography.begin(), bibliography.end(),
            [](const Citation& a, const Citation& b) { return a.topic < b.topic; });
}

void read_source(const Node& node, const std::vector<Citation>& bibliography,
                 std::vector<Citation>& into, Diagnostics& out) {
  SourceReader reader(bibliography, out);
  if (!by_topic(node)) return replace_topic(into, "all", reader.items(node, "all"));
  for (std::size_t i = 0; i < node.keys.size(); ++i) {
    replace_topic(into, node.keys[i], reader.items(node.items[i], node.keys[i]));
  }
}

}  // namespace aftercrop::load
