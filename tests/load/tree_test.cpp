#include "aftercrop/load/tree.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "aftercrop/diagnostic/render.h"

using namespace aftercrop;

namespace {

std::unique_ptr<load::Node> parse(const std::string& text, diagnostic::Diagnostics& out) {
  const auto file =
      std::make_shared<const diagnostic::SourceFile>(diagnostic::SourceFile{"g.yaml", text});
  return load::parse_yaml(file, out);
}

std::string repeat(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

}  // namespace

TEST_CASE("tree: what a file must not hold is refused at its place") {
  struct Row {
    const char* name;
    std::string text;
    const char* id;
    int line;
    int column;
  };
  const std::vector<Row> rows = {
      {"alias", "a: 1\nb: *x\n", "yaml-syntax", 2, 4},
      {"anchor and alias", "a: &x 1\nb: *x\n", "yaml-anchor", 1, 4},
      {"anchor that holds itself", "a: &x [*x]\n", "yaml-anchor", 1, 4},
      {"tag", "a: !!int abc\n", "yaml-tag", 1, 4},
      {"merge key", "a: 1\n<<: {b: 2}\n", "yaml-merge-key", 2, 1},
      {"duplicate key", "a: 1\nb: 2\na: 3\n", "yaml-duplicate-key", 3, 1},
      {"duplicate key in a flow map", "x: {a: 1, a: 2}\n", "yaml-duplicate-key", 1, 11},
      {"second document", "a: 1\n---\nb: 2\n", "yaml-second-document", 2, 1},
      {"list, then a key", "- a\nb: 1\n", "yaml-second-document", 2, 1},
      {"after a closed list", "[a]\nb: 1\n", "yaml-second-document", 2, 1},
      {"depth", "a: " + repeat("[", 40) + repeat("]", 40), "yaml-too-deep", 1, 35},
      {"deeper than the parser goes", "a: " + repeat("[", 3000) + repeat("]", 3000),
       "yaml-too-deep", 1, 35},
      // the map, its key and the list are 3 values; the 199,998th item stands in 5 + 2 x 199,997
      {"too many values", "a: [" + repeat("1,", 200001) + "1]\n", "yaml-too-many-values", 1,
       399999},
      {"too large", repeat("# 345678\n", 500000), "yaml-too-large", 1, 1},
      {"Latin-1", "a: caf\xe9\n", "yaml-not-utf8", 1, 7},
      {"too long a form of a slash", "a: \xc0\xaf\n", "yaml-not-utf8", 1, 4},
      {"a surrogate", "\xc3\xa9: \xed\xa0\x80\n", "yaml-not-utf8", 1, 4},
      {"UTF-16", std::string("\xff\xfe") + "a", "yaml-not-utf8", 1, 1},
      {"NUL", std::string("a: b\nc: \0d\n", 11), "yaml-control-character", 2, 4},
      {"escape", "a: \x1b[31m\n", "yaml-control-character", 1, 4},
      {"lone carriage return", "a: 1\rb: 2\r", "yaml-control-character", 1, 5},
      {"open quote", "a: 'x\nb: 2\n", "yaml-unclosed-quote", 1, 4},
      {"open double quote", "a: 1\nb: \"x\\\"\nc: 2\n", "yaml-unclosed-quote", 2, 4},
      {"no blank after a colon", "a:1\n", "yaml-missing-blank", 1, 1},
      {"no blank after a colon, then more", "a: 1\nb:2\nc: 3\n", "yaml-missing-blank", 2, 2},
      {"no blank after a colon in a flow map", "a: {b:c}\n", "yaml-missing-blank", 1, 5},
      {"tab", "a:\n\tb: 1\n", "yaml-tab", 2, 1},
      {"colon in a value", "a: b: c\n", "yaml-syntax", 1, 5},
      {"a list as a key", "[a, b]: c\n", "yaml-key-not-text", 1, 1},
      {"open bracket", "a: [1, 2\nb: 3\n", "yaml-syntax", 2, 2},
      {"empty", "", "yaml-empty", 1, 1},
      {"comments only", "# nothing\n", "yaml-empty", 1, 1},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    diagnostic::Diagnostics out;
    CHECK(parse(row.text, out) == nullptr);
    CHECK(!out.all().empty());
    if (out.all().empty()) continue;
    CAPTURE(out.all().front().message);
    CHECK(out.all().front().id == row.id);
    CHECK(out.all().front().source.line == row.line);
    CHECK(out.all().front().source.column == row.column);
  }
}

TEST_CASE("tree: values keep their text, their quotes and their places in characters") {
  diagnostic::Diagnostics out;
  const auto root = parse("\xc3\xa9\xc3\xa9: 012\r\nb: ['no', ~, 4.5 %]\r\nc:\r\n", out);
  REQUIRE(root != nullptr);
  CHECK(out.all().empty());
  REQUIRE(root->keys.size() == 3);
  CHECK(root->items[0].text == "012");
  CHECK(root->items[0].source.column == 5);  // two characters, a colon, a blank
  const load::Node* list = root->find("b");
  REQUIRE(list != nullptr);
  REQUIRE(list->items.size() == 3);
  CHECK(list->items[0].quoted);
  CHECK(list->items[0].source.length == 4);
  CHECK(list->items[1].is_null());
  CHECK(list->items[2].text == "4.5 %");
  CHECK(root->find("c")->is_null());
  CHECK(root->find("c")->source.line == 3);
  CHECK(root->find("d") == nullptr);
}

TEST_CASE("tree: all duplicate keys are reported in one go, with both places") {
  diagnostic::Diagnostics out;
  CHECK(parse("a: 1\nb: {c: 1, c: 2}\na: 2\n", out) == nullptr);
  REQUIRE(out.all().size() == 2);
  REQUIRE(out.all()[1].related.size() == 1);
  CHECK(out.all()[1].related[0].source.line == 1);
}
