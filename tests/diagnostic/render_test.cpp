#include "aftercrop/diagnostic/render.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "diagnostic/text.h"

using namespace aftercrop::diagnostic;

namespace {

Source at(const std::string& text, int line, int column, int length) {
  return {std::make_shared<const SourceFile>(SourceFile{"g.yaml", text}), line, column, length};
}

}  // namespace

TEST_CASE("render: the full form shows the line, a caret, related places and help") {
  const std::string text = "beds: 3\nwants: [\xc3\xa9t\xc3\xa9, tomatoe]\r\n";
  Diagnostics out;
  out.error("unknown-crop", "\"tomatoe\" is not a crop", at(text, 2, 14, 7),
            "did you mean \"tomato\"?")
      .related.push_back({"beds are named here", at(text, 1, 1, 4)});
  CHECK(render_full(out.all()[0], {}) ==
        "g.yaml:2:14: error[unknown-crop]: \"tomatoe\" is not a crop\n"
        " 2 | wants: [\xc3\xa9t\xc3\xa9, tomatoe]\n"
        "   |              ^^^^^^^\n"
        "  g.yaml:1:1: beds are named here\n"
        " 1 | beds: 3\n"
        "   | ^^^^\n"
        "  help: did you mean \"tomato\"?\n");
  CHECK(render_concise(out.all()[0]) ==
        "g.yaml:2:14: error[unknown-crop] \"tomatoe\" is not a crop");
}

TEST_CASE("render: headlines are folded where people read them, and whole for programs") {
  Diagnostics out;
  const std::string words = "a message that is longer than the forty columns of this terminal";
  out.warning("bare-winter", words, at("a: 1\n", 1, 1, 1))
      .related.push_back({words, at("a: 1\n", 1, 1, 1)});
  CHECK(render_full(out.all()[0], {false, 40}).find(words) != std::string::npos);
  CHECK(render_full(out.all()[0], {false, 40, true}) ==
        "g.yaml:1:1: warning[bare-winter]: a\n"
        "    message that is longer than the\n"
        "    forty columns of this terminal\n"
        " 1 | a: 1\n"
        "   | ^\n"
        "  g.yaml:1:1: a message that is longer\n"
        "    than the forty columns of this\n"
        "    terminal\n"
        " 1 | a: 1\n"
        "   | ^\n");
  CHECK(render_full(out.all()[0], {true, 40, true})
            .find("\x1b[1;33mwarning[bare-winter]\x1b[0m: a") != std::string::npos);
}

TEST_CASE("render: colour codes appear only when they are asked for") {
  Diagnostics out;
  out.warning("bare-winter", "bare", at("a: 1\n", 1, 1, 1));
  CHECK(render_full(out.all()[0], {}).find('\x1b') == std::string::npos);
  CHECK(render_full(out.all()[0], {true, 80}).find("\x1b[1;33m") != std::string::npos);
}

TEST_CASE("render: a number keeps its per cent sign when text is folded") {
  using Lines = std::vector<std::string>;
  CHECK(fold("the plan meets 66 %", 17) == Lines{"the plan meets", "66 %"});
  CHECK(fold("66 % of it", 4) == Lines{"66 %", "of", "it"});
  CHECK(fold("5 %", 2) == Lines{"5 %"});
}

TEST_CASE("render: a long line is cut around the caret, long help is folded") {
  const std::string text = fmt::format("{:x<200}HERE{:y<200}", "", "");
  Diagnostics out;
  out.error("too-long", "long", at(text, 1, 201, 4), fmt::format("{:a<30} {:b<30}", "", ""));
  const std::string shown = render_full(out.all()[0], {false, 50});
  CHECK(shown.find("HERE") != std::string::npos);
  CHECK(shown.find("...xxx") != std::string::npos);
  CHECK(shown.find("yyy...") != std::string::npos);
  CHECK(shown.find("a\n        b") != std::string::npos);
  for (std::size_t start = 0; start < shown.size();) {
    const std::size_t end = shown.find('\n', start);
    CHECK(end - start <= 50);
    start = end + 1;
  }
}

TEST_CASE("render: text of a user cannot steer the terminal") {
  struct Row {
    const char* name;
    std::string text;
    std::string expected;
  };
  const Row rows[] = {{"escape", "\x1b[2J", "\xe2\x90\x9b[2J"},
                      {"line break", "a\nb",
                       "a\xe2\x90\x8a"
                       "b"},
                      {"delete", "\x7f", "\xe2\x90\xa1"},
                      {"C1", "\xc2\x9b", "\xef\xbf\xbd"},
                      {"not UTF-8", "a\xff", "a\xef\xbf\xbd"},
                      {"right to left mark",
                       "a\xe2\x80\xae"
                       "b",
                       "a\xef\xbf\xbd"
                       "b"},
                      {"plain", "Caf\xc3\xa9 \xf0\x9f\x8c\xb1", "Caf\xc3\xa9 \xf0\x9f\x8c\xb1"}};
  for (const Row& row : rows) {
    CAPTURE(row.name);
    CHECK(printable(row.text) == row.expected);
  }
}

TEST_CASE("diagnostics: sorted by place, then id, equal ones in their order") {
  const std::string text = "a\nb\n";
  Diagnostics out;
  out.note("z", "third", at(text, 2, 1, 1));
  out.error("b", "second", at(text, 1, 1, 1));
  out.error("a", "first", at(text, 1, 1, 1));
  out.sort();
  CHECK(out.all()[0].message == "first");
  CHECK(out.all()[1].message == "second");
  CHECK(out.all()[2].message == "third");
  CHECK(out.count(Severity::Error) == 2);
  CHECK(out.has_errors());
}
