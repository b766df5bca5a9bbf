#include "load/tree_builder.h"

#include <fmt/format.h>

namespace aftercrop::load {
namespace {

using diagnostic::Source;

constexpr std::size_t kMostDepth = 32;
constexpr int kMostValues = 200000;
constexpr int kMostReports = 50;

std::size_t characters_in(const std::string& text) {
  std::size_t count = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

/// "crop:tomato" typed where "crop: tomato" was meant.
bool looks_glued(const Node& key) {
  const std::size_t colon = key.text.find(':');
  return !key.quoted && colon != std::string::npos && colon > 0 && colon + 1 < key.text.size();
}

}  // namespace

void TreeBuilder::report(const YAML::Mark& mark, const char* id, const char* message,
                         const char* help) {
  out_.error(id, message, lines_.source(mark, 1), help);
  if (++reports_ >= kMostReports) throw Stop{};
}

void TreeBuilder::fail(const YAML::Mark& mark, const char* id, const char* message,
                       const char* help) {
  report(mark, id, message, help);
  throw Stop{};
}

void TreeBuilder::check_properties(const YAML::Mark& mark, const std::string& tag,
                                   YAML::anchor_t anchor) {
  if (++values_ > kMostValues) {
    fail(mark, "yaml-too-many-values", "the file holds more than 200,000 values",
         "split the file: earlier years can stand in plan files of their own");
  }
  if (anchor != YAML::NullAnchor) {
    report(mark, "yaml-anchor", "anchors (&name) are not used in these files",
           "write the value out where it is needed");
  }
  if (!tag.empty() && tag != "?" && tag != "!") {
    report(mark, "yaml-tag", "tags (!name) are not used in these files", "remove the tag");
  }
}

void TreeBuilder::OnDocumentStart(const YAML::Mark& /*mark*/) {}

void TreeBuilder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
  check_properties(mark, {}, anchor);
  Node node;
  node.source = lines_.source(mark, 1);
  place(std::move(node));
}

void TreeBuilder::OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) {
  report(mark, "yaml-alias", "aliases (*name) are not used in these files",
         "write the value out where it is needed");
  OnNull(mark, YAML::NullAnchor);
}

void TreeBuilder::OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                           const std::string& value) {
  check_properties(mark, tag, anchor);
  Node node;
  node.kind = Node::Kind::Scalar;
  node.quoted = tag == "!";
  node.text = value;
  node.source = lines_.source(mark, characters_in(value) + (node.quoted ? 2 : 0));
  const std::string_view rest = lines_.rest_of_line(mark);
  const bool starts_quote = !rest.empty() && (rest.front() == '\'' || rest.front() == '"');
  if (node.quoted && starts_quote && !quote_closes(rest)) {
    node.source.length = 1;
    report_open_quote(node.source, out_);
    throw Stop{};
  }
  place(std::move(node));
}

void TreeBuilder::OnSequenceStart(const YAML::Mark& mark, const std::string& tag,
                                  YAML::anchor_t anchor, YAML::EmitterStyle::value /*style*/) {
  check_properties(mark, tag, anchor);
  open(mark, Node::Kind::Sequence);
}

void TreeBuilder::OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                             YAML::EmitterStyle::value /*style*/) {
  check_properties(mark, tag, anchor);
  open(mark, Node::Kind::Map);
}

void TreeBuilder::OnSequenceEnd() { close(); }
void TreeBuilder::OnMapEnd() { close(); }

void TreeBuilder::open(const YAML::Mark& mark, Node::Kind kind) {
  if (open_.size() >= kMostDepth) {
    fail(mark, "yaml-too-deep", "lists and tables stand more than 32 deep in each other",
         "check the indentation and the brackets");
  }
  if (!open_.empty() && open_.back().awaits_key) {
    // A table that never ends is taken for a key by the parser.
    if (const auto quote = lines_.open_quote(lines_.source(mark, 1).line)) {
      report_open_quote(*quote, out_);
      throw Stop{};
    }
    if (!lines_.bracket_closes(mark)) {
      fail(mark, "yaml-syntax", "the bracket that opens here is not closed",
           "close every [ with ] and every { with }, and put a comma between entries");
    }
    fail(mark, "yaml-key-not-text", "a key must be a plain word",
         "write `key: value`; a list or table can only be a value");
  }
  Open next;
  next.node.kind = kind;
  next.node.source = lines_.source(mark, 1);
  next.awaits_key = kind == Node::Kind::Map;
  open_.push_back(std::move(next));
}

void TreeBuilder::close() {
  Node node = std::move(open_.back().node);
  open_.pop_back();
  place(std::move(node));
}

void TreeBuilder::place(Node node) {
  if (open_.empty()) {
    if (node.is_scalar() && looks_glued(node)) {
      out_.error("yaml-missing-blank", "a blank is missing after the colon", node.source,
                 "write `key: value`");
    }
    root_ = std::move(node);
    return;
  }
  Open& top = open_.back();
  if (top.node.is_sequence()) {
    top.node.items.push_back(std::move(node));
  } else if (top.awaits_key) {
    place_key(std::move(node));
  } else {
    place_value(top, std::move(node));
  }
}

void TreeBuilder::place_key(Node node) {
  Open& top = open_.back();
  if (!node.is_scalar()) {
    out_.error("yaml-key-not-text", "a key must be a plain word", node.source,
               "write `key: value`");
    throw Stop{};
  }
  if (node.text == "<<" && !node.quoted) {
    out_.error("yaml-merge-key", "merge keys (<<) are not used in these files", node.source,
               "write the keys out where they are needed");
  }
  const auto [earlier, fresh] = top.seen.emplace(node.text, node.source);
  if (!fresh) {
    out_.error("yaml-duplicate-key", fmt::format("the key \"{}\" stands here twice", node.text),
               node.source, "keep one of the two")
        .related.push_back({"first here", earlier->second});
    if (++reports_ >= kMostReports) throw Stop{};
  }
  top.node.keys.push_back(node.text);
  top.node.key_sources.push_back(node.source);
  top.awaits_key = false;
}

void TreeBuilder::place_value(Open& map, Node node) {
  if (node.is_null()) {
    const Source& key = map.node.key_sources.back();
    if (node.source.line != key.line) node.source = key;  // an empty value's mark is further on
    Node as_key;
    as_key.text = map.node.keys.back();
    if (looks_glued(as_key)) {
      out_.error("yaml-missing-blank", "a blank is missing after the colon", key,
                 "write `key: value`");
      if (++reports_ >= kMostReports) throw Stop{};
    }
  }
  map.node.items.push_back(std::move(node));
  map.awaits_key = true;
}

}  // namespace aftercrop::load
