#include "aftercrop/load/tree.h"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <sstream>

#include "load/tree_builder.h"
#include "load/tree_text.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using diagnostic::Source;

/// Finds whether a text holds a second document: the first event of it is enough.
class SecondDocument : public TreeBuilder {
 public:
  using TreeBuilder::TreeBuilder;
  void OnDocumentStart(const YAML::Mark& mark) override {
    fail(mark, "yaml-second-document", "a second document begins here",
         "a file holds one document: remove the line of three dashes, or check how far this line "
         "is indented");
  }
};

struct Words {
  std::string message;
  std::string help;
};

/// The parser's complaint in words that say what to do.
Words explain(const std::string& complaint) {
  if (complaint.find("illegal map value") != std::string::npos) {
    return {"a colon is not expected here", "put a text that holds a colon in quotes"};
  }
  if (complaint.find("flow") != std::string::npos) {
    return {"a bracket is not closed, or a comma is missing",
            "close every [ with ] and every { with }, and put a comma between entries"};
  }
  if (complaint.find("end of map not found") != std::string::npos ||
      complaint.find("end of sequence not found") != std::string::npos) {
    return {"this line does not fit the list or table around it",
            "check how far it is indented, and that every key has a colon and a blank"};
  }
  return {"this cannot be read as YAML (" + complaint + ")",
          "compare the line with the lines around it: indentation, colons, quotes, brackets"};
}

void report(const YAML::ParserException& problem, const TextLines& lines, Diagnostics& out) {
  const Source source = lines.source(problem.mark, 1);
  const std::optional<Source> glued = lines.colon_without_blank(source.line);
  if (glued) {
    out.error("yaml-missing-blank", "a blank is missing after the colon", *glued,
              "write `key: value`");
    return;
  }
  const std::optional<Source> quote = lines.open_quote(source.line);
  if (quote) {
    report_open_quote(*quote, out);
    return;
  }
  const std::string_view line = lines.line(source.line);
  const std::size_t indent = line.substr(0, line.find_first_not_of(" \t")).find('\t');
  if (indent != std::string_view::npos) {
    Source tab = source;
    tab.column = static_cast<int>(indent) + 1;
    out.error("yaml-tab", "a tab is used to indent", tab, "indent with blanks");
    return;
  }
  const Words words = explain(problem.msg);
  out.error("yaml-syntax", words.message, source, words.help);
}

}  // namespace

const Node* Node::find(std::string_view key) const {
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (keys[i] == key) return &items[i];
  }
  return nullptr;
}

std::unique_ptr<Node> parse_yaml(const std::shared_ptr<const diagnostic::SourceFile>& file,
                                 Diagnostics& diagnostics) {
  if (!check_text(file, diagnostics)) return nullptr;
  Diagnostics found;
  const TextLines lines(file);
  TreeBuilder builder(lines, found);
  try {
    std::istringstream stream(file->text);
    YAML::Parser parser(stream);
    const bool any = parser.HandleNextDocument(builder);
    if (!any || (builder.root().is_null() && !found.has_errors())) {
      found.error("yaml-empty", "nothing is said in the file", lines.start(),
                  "write at least one `key: value` line");
    } else {
      SecondDocument second(lines, found);
      parser.HandleNextDocument(second);
    }
  } catch (const TreeBuilder::Stop&) {
    // the reason is already in `found`
  } catch (const YAML::ParserException& problem) {
    report(problem, lines, found);
  } catch (const YAML::Exception& problem) {
    found.error("yaml-syntax", explain(problem.msg).message, lines.source(problem.mark, 1));
  }
  const bool bad = found.has_errors();
  diagnostics.append(found);
  if (bad) return nullptr;
  return std::make_unique<Node>(builder.take());
}

}  // namespace aftercrop::load
